"""Starts, ovens and orders that a person fixed: every part of the time plan keeps them."""

from dataclasses import replace
from random import Random

import pytest

from kitchen.timeplan import model
from kitchen.timeplan.answer import Answer, check, holding_minutes
from kitchen.timeplan.bounds import best_bound, heads, latest_starts
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.class_data import ShownData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.model import twin_benches
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.pins.pinned import fixed_by, why_not
from kitchen.timeplan.problem import Bench, Demonstration, Problem, Task, Window
from kitchen.timeplan.solver import NoPlan, solve
from tests.builders.timeplan import shortest_by_trying, tiny_class, two_benches
from tests.builders.timeplan_lessons import class_of

STEADY = Effort(work=0.4, holding=False)


def changed(problem: Problem, name: str, **facts: object) -> Problem:
    return replace(problem, tasks=tuple(replace(t, **facts) if t.name == name else t for t in problem.tasks))


def starting(problem: Problem, name: str, minute: int) -> Problem:
    return changed(problem, name, earliest=minute, latest=minute)


def tiny_with_pins(seed: int) -> Problem:
    """A tiny class in which a task or two, and sometimes its demonstration, are fixed."""
    dice, problem = Random(seed), tiny_class(seed)
    for task in dice.sample(problem.tasks, min(2, dice.randint(1, len(problem.tasks)))):
        problem = starting(problem, task.name, heads(problem)[task.name] + dice.randint(0, 4))
    if problem.demonstrations and dice.random() < 0.4:
        minute = dice.randint(0, 3)
        pinned = replace(problem.demonstrations[0], earliest=minute, latest=minute)
        problem = replace(problem, demonstrations=(pinned,))
    if len(problem.benches) == 2 and dice.random() < 0.5:
        problem = replace(problem, windows=(*problem.windows, Window("1/1", "2/1")))
    return problem


def horizon(problem: Problem) -> int:
    """No tiny class that can be planned at all is longer."""
    return max(t.earliest for t in problem.tasks) + sum(t.minutes for t in problem.tasks) // 2 + 4


@pytest.mark.parametrize("seed", range(33))
def test_what_is_fixed_is_planned_round_as_well_as_by_trying_everything(seed):
    problem = tiny_with_pins(seed)
    try:
        solved = solve(problem, STEADY)
    except NoPlan:
        with pytest.raises(StopIteration):
            shortest_by_trying(problem, horizon(problem))
        return
    assert check(problem, solved.answer) == []
    assert solved.finish_minutes == shortest_by_trying(problem, solved.finish_minutes)
    assert solved.bound_minutes <= solved.finish_minutes


@pytest.mark.parametrize("seed", range(200))
def test_the_rule_keeps_what_is_fixed_or_says_that_it_cannot(seed):
    problem = tiny_with_pins(seed)
    try:
        answer = plan_by_hand(problem)
    except NoPlanByHand:
        return
    assert check(problem, answer) == []


def test_the_rule_finds_a_plan_round_most_of_what_is_fixed():
    found = 0
    for seed in range(200):
        try:
            plan_by_hand(tiny_with_pins(seed))
            found += 1
        except NoPlanByHand:
            pass
    assert found >= 100


def test_a_model_that_forgets_what_is_fixed_would_be_caught(monkeypatch):
    """Planted: without the latest starts the solver's plan breaks the pin, and the check says so."""
    monkeypatch.setattr(model, "_not_after", lambda built, thing: None)
    problem = replace(starting(two_benches(), "2/mix", 0), benches=two_benches().benches)
    problem = replace(problem, windows=(*problem.windows, Window("1/plate", "2/mix")))
    with pytest.raises(AssertionError, match="fixed at minute 0"):
        solve(problem, STEADY)


def test_a_start_that_is_not_kept_is_said_with_both_minutes():
    problem = starting(two_benches(), "1/mix", 15)
    answer = plan_by_hand(problem)
    assert answer.starts["1/mix"] == 15
    broken = check(problem, replace(answer, starts={**answer.starts, "1/mix": 14}))
    assert ("pinned_start", "mix, bench 1 is fixed at minute 15 and begins at 14.") in [
        (found.code, found.words) for found in broken
    ]
    loose = changed(two_benches(), "1/mix", earliest=20, latest=25)
    words = {found.code: found.words for found in check(loose, answer)}["pinned_start"]
    assert (
        words == "mix, bench 1 may begin at minute 20 at the earliest and 25 at the latest and begins at 15."
    )


def test_an_oven_that_is_not_kept_is_said_with_both_ovens():
    problem = changed(two_benches(), "1/bake", only_ovens=("right",))
    answer = plan_by_hand(problem)
    assert answer.ovens["1/bake"] == "right"
    elsewhere = Answer(answer.starts, {**answer.ovens, "1/bake": "left", "2/bake": "right"})
    (broken,) = check(problem, elsewhere)
    assert broken.code == "pinned_oven"
    assert broken.words == "bake, bench 1 is fixed to oven right and is in oven left."


def test_both_fixed_to_one_oven_of_one_tray_bake_one_after_another():
    problem = changed(two_benches(), "1/bake", only_ovens=("left",))
    problem = changed(problem, "2/bake", only_ovens=("left",))
    solved = solve(problem, STEADY)
    assert set(solved.answer.ovens.values()) == {"left"}
    assert solved.finish_minutes > solve(two_benches(), STEADY).finish_minutes


def test_what_comes_before_something_fixed_is_begun_in_time():
    """The rest of bench 2 may be held ten minutes, so its mix is begun late enough, and early enough."""
    problem = starting(two_benches(), "2/bake", 50)
    assert latest_starts(problem)["2/mix"] == 50 - 2 - 5 - 10
    answer = plan_by_hand(problem)
    assert check(problem, answer) == []
    assert 25 <= answer.starts["2/mix"] <= 33


def test_nothing_is_due_where_nothing_is_fixed():
    assert latest_starts(two_benches()) == {}


def test_the_bound_is_of_the_question_with_what_is_fixed():
    problem = starting(two_benches(), "2/bake", 50)
    assert problem.free().task["2/bake"].latest == 50
    assert heads(problem)["2/plate"] == 70
    assert best_bound(problem).minutes >= 75
    shown = Demonstration("plating", 4, earliest=90, latest=90)
    assert best_bound(replace(two_benches(), demonstrations=(shown,))).minutes >= 99


def test_a_demonstration_fixed_late_is_watched_late():
    shown = Demonstration("plating", 4, earliest=33, latest=33)
    problem = replace(two_benches(), demonstrations=(shown,))
    for answer in (plan_by_hand(problem), solve(problem, STEADY).answer):
        assert check(problem, answer) == []
        assert answer.starts["plating"] == 33
    (broken,) = check(problem, Answer({**answer.starts, "plating": 32}, answer.ovens))
    assert broken.code == "pinned_start"


def test_an_order_between_benches_is_no_holding():
    problem = two_benches()
    answer = plan_by_hand(problem)
    ordered = replace(problem, windows=(*problem.windows, Window("1/mix", "2/plate")))
    assert check(ordered, answer) == []
    assert holding_minutes(ordered, answer) == holding_minutes(problem, answer)


def test_benches_of_which_one_is_fixed_are_no_twins():
    assert twin_benches(two_benches())
    assert not twin_benches(starting(two_benches(), "1/mix", 5))
    ordered = replace(two_benches(), windows=(*two_benches().windows, Window("1/mix", "2/mix")))
    assert not twin_benches(ordered)


def test_the_day_is_asked_without_fixed_starts_and_ovens():
    problem = changed(starting(two_benches(), "1/mix", 5), "1/bake", only_ovens=("left",))
    assert problem != two_benches()
    assert problem.unpinned() == two_benches()


@pytest.mark.parametrize(
    "facts",
    [{"earliest": -1}, {"earliest": 5, "latest": 4}, {"only_ovens": ("left",)}],
)
def test_a_task_refuses_a_start_that_cannot_be_and_an_oven_without_a_bake(facts):
    with pytest.raises(ValueError):
        Task("a", 5, **facts)


def test_a_question_refuses_an_oven_that_is_not_there():
    with pytest.raises(ValueError, match="no oven takes"):
        changed(two_benches(), "1/bake", only_ovens=("middle",))


def test_a_fixed_start_leaves_its_wave_and_the_clock():
    lesson = class_of("R01", "juniper", 3, 210)
    pin = PinData(1, START, "2", 3, minute=lesson.start_minutes + 52)
    problem = problem_of(replace(lesson, pins=(pin,)))
    assert problem.task["2/3/0"].earliest == problem.task["2/3/0"].latest == 52
    assert ("1/3/0", "3/3/0") in problem.together
    assert "2/3/0" not in problem.on_the_clock
    assert "1/3/0" in problem.on_the_clock
    assert check(problem, plan_by_hand(problem)) == []


def test_what_means_nothing_is_left_out_and_said():
    lesson = class_of("R01", "juniper", 2, 210)
    problem = problem_of(lesson)
    oven = lesson.appliances[0].code
    pins = (
        PinData(1, START, "9", 3, minute=60),
        PinData(2, START, "1", 3, minute=lesson.start_minutes - 1),
        PinData(3, OVEN, "1", 5, 1, oven="nowhere"),
        PinData(4, OVEN, "1", 3, oven=oven),
        PinData(5, ORDER, "1", 5, other_bench="1", other_step=4),
        PinData(6, ORDER, "1", 3, other_bench="2", other_step=3),
    )
    found = fixed_by(problem, pins, lesson.start_minutes)
    assert [pin.number for pin, _ in found.left_out] == [1, 2, 3, 4, 5]
    assert all(why.endswith(".") for _, why in found.left_out)
    assert Window("1/3/0", "2/3/0") in found.problem.windows


def test_a_demonstration_is_fixed_for_everybody():
    lesson = class_of("R01", "juniper", 2, 210, shown=(ShownData(4, 6),))
    pin = PinData(1, START, "", 4, minute=lesson.start_minutes + 13)
    problem = problem_of(replace(lesson, pins=(pin,)))
    (show,) = problem.demonstrations
    assert (show.earliest, show.latest) == (13, 13)
    assert plan_by_hand(problem).starts[show.name] == 13


@pytest.mark.parametrize(("minute", "why"), [(14, "That is before cooking may begin."), (15, "")])
def test_what_begins_as_cooking_may_begin_is_fixed_and_a_minute_sooner_means_nothing(minute, why):
    problem = Problem((Task("1/1/0", 5, "1", hands=True, step=1),), benches=(Bench("1"),))
    assert why_not(problem, PinData(1, START, "1", 1, minute=minute), 15) == why
