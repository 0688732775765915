"""What a re-plan is asked, and what an answer costs."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.day.check import check_from
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.situation import HOLD_BROKEN, PAST_FINISH, lasting, price, situation
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Task
from tests.builders.day import as_planned
from tests.builders.timeplan import two_benches


@pytest.fixture
def problem():
    return two_benches()


@pytest.fixture
def plan(problem):
    return plan_by_hand(problem)


def at(problem, plan, now, *more):
    deeds = as_planned(problem, plan, now)
    extra = [replace(deed, number=len(deeds) + n) for n, deed in enumerate(more, 1)]
    return situation(live(problem, plan, [*deeds, *extra], now))


def test_what_has_begun_is_fixed_at_its_real_minutes(problem, plan):
    found = at(problem, plan, 12, Deed(0, "later", 12, "2/mix", minutes=5))
    assert "1/mix" in found.past.fixed
    assert "1/plate" not in found.past.fixed
    assert found.old.starts["1/mix"] == plan.starts["1/mix"]
    assert found.problem.task["2/mix"].minutes == 15


def test_an_undisturbed_class_costs_nothing(problem, plan):
    found = at(problem, plan, 20)
    assert price(found, found.old).figure == 0


def test_the_price_has_three_parts_with_their_weights(problem, plan):
    found = at(problem, plan, 5)
    last = max(found.coming, key=lambda t: plan.starts[t.name] + t.minutes)
    moved = Answer({**found.old.starts, last.name: found.old.starts[last.name] + 3}, found.old.ovens)
    assert price(found, moved).moved == 3
    assert price(found, moved).past_finish == 3
    assert price(found, moved).figure == 3 + 3 * PAST_FINISH
    late = Answer({**found.old.starts, "1/bake": found.old.starts["1/bake"] + 90}, found.old.ovens)
    assert price(found, late).held_over > 0
    assert price(found, late).figure >= HOLD_BROKEN


def test_an_absent_bench_leaves_the_question_and_nobody_left_is_no_question(problem, plan):
    found = at(problem, plan, 5, Deed(0, "absent", 5, bench="1"))
    assert {task.bench for task in found.problem.tasks} == {"2"}
    assert at(problem, plan, 5, Deed(0, "absent", 5, bench="1"), Deed(0, "absent", 5, bench="2")) is None


def test_food_of_a_failed_oven_is_held_from_that_minute(problem, plan):
    start = plan.starts["1/bake"]
    found = at(problem, plan, start + 6, Deed(0, "failed", start + 5, oven=plan.ovens["1/bake"]))
    (window,) = (w for w in found.problem.windows if w.after == "1/bake")
    rest_ends = start - (start - plan.starts["1/rest"] - 5)
    assert window.longest == max(10, start + 5 - rest_ends)
    assert found.problem.task["1/bake"].minutes == 15


def test_a_longer_bake_has_a_longer_last_stay_and_a_shorter_one_its_last_stays():
    bake = Bake((Stay(25, 1800), Stay(15, 1500)))
    assert lasting(bake, 45).stays == (Stay(25, 1800), Stay(20, 1500))
    assert lasting(bake, 18).stays == (Stay(3, 1800), Stay(15, 1500))
    assert lasting(bake, 5).stays == (Stay(5, 1500),)
    off = Bake((Stay(60, 1050), Stay(30, None)))
    assert lasting(off, 10).stays == (Stay(10, 1050),)


@pytest.mark.parametrize("now", [15, 25, 29])
def test_an_undisturbed_bake_at_two_heats_moves_nothing_behind_it(now):
    """220 °C, then 180 °C; the next bake at 180 °C goes in the moment it comes out."""
    oven = Oven("O", 2)
    first = Task("1/1/0", 30, "1", bake=Bake((Stay(10, 2200), Stay(20, 1800))), step=1)
    second = Task("2/1/0", 20, "2", bake=Bake((Stay(20, 1800),)), step=1)
    problem = Problem((first, second), (), (Bench("1"), Bench("2")), (oven,))
    hot = oven.heat_up_minutes(first.bake)
    plan = Answer({"1/1/0": hot, "2/1/0": hot + 30}, {"1/1/0": "O", "2/1/0": "O"})
    assert check(problem, plan) == []
    state = live(problem, plan, [Deed(1, "started", hot, "1/1/0", "1", "O")], hot + now)
    found = situation(state, plan.finish(problem))
    assert check_from(found.problem, found.old, found.past) == []
