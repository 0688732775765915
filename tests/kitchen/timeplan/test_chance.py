"""The runs of a class: with no spread the plan, one oven's queue by an event loop, and what spread does."""

import json
from dataclasses import replace
from pathlib import Path
from random import Random

import numpy as np
import pytest

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.chance import GROUPS, Pace, learned_pace, run_classes
from kitchen.timeplan.problem import Bake, Bench, Demonstration, Oven, Pause, Problem, Stay, Task, Window
from tests.builders.timeplan import problem_of_class, tiny_class, tiny_class_with_a_break

SPREAD = Pace(1000, 200, 150)


def one_oven(hands: list[int], bakes: list[int], trays: int = 1) -> tuple[Problem, Answer]:
    """Benches that each work, then bake at once in the one oven; planned in the order of their numbers."""
    tasks, windows, starts, free = [], [], {}, [0.0] * trays
    for number, (work, bake) in enumerate(zip(hands, bakes, strict=True), 1):
        bench = str(number)
        tasks.append(Task(f"{bench}/work", work, bench, hands=True))
        tasks.append(Task(f"{bench}/bake", bake, bench, bake=Bake((Stay(bake, 1800),))))
        windows.append(Window(f"{bench}/work", f"{bench}/bake"))
        free.sort()
        begin = max(work, int(free[0]))
        free[0] = begin + bake
        starts |= {f"{bench}/work": 0, f"{bench}/bake": begin}
    problem = Problem(
        tasks=tuple(tasks),
        windows=tuple(windows),
        benches=tuple(Bench(str(n)) for n in range(1, len(hands) + 1)),
        ovens=(Oven("oven", trays, cold_decicelsius=1800),),
        usable_minutes=max(starts[t.name] + t.minutes for t in tasks),
    )
    return problem, Answer(starts, {t.name: "oven" for t in tasks if t.bake})


def event_loop(problem: Problem, answer: Answer, real: dict[str, float], trays: int) -> float:
    """One run by hand, event by event: each bench works, queues in the order of the plan, bakes."""
    order = sorted((t for t in problem.tasks if t.bake), key=lambda t: (answer.starts[t.name], t.name))
    inside: list[float] = []
    clock, last = 0.0, 0.0
    for task in order:
        ready = max(real[f"{task.bench}/work"], answer.starts[task.name], clock)
        while len([end for end in inside if end > ready]) >= trays:
            ready = min(end for end in inside if end > ready)
        inside.append(ready + task.minutes)
        last = max(last, ready + task.minutes)
    return last


@pytest.mark.parametrize("seed", range(50))
def test_the_queue_at_one_oven_is_that_of_an_event_loop(seed):
    dice = Random(seed)
    count, trays = dice.randint(2, 8), dice.choice((1, 1, 2))
    problem, answer = one_oven(
        [dice.randint(5, 30) for _ in range(count)], [dice.randint(5, 25)] * count, trays
    )
    problem = replace(problem, ovens=(replace(problem.ovens[0], trays=trays),))
    chance = run_classes(problem, answer, SPREAD, runs=1, seed=seed)
    draws = np.random.default_rng(seed)
    own = {b.name: float(np.exp(draws.normal(0.0, 0.2, 1))[0]) for b in problem.benches}
    real = {}
    for task in problem.tasks:
        if task.hands:
            factor = own[task.bench] * float(np.exp(draws.normal(0.0, 0.15, 1))[0])
            real[task.name] = task.minutes * factor
    assert chance.finish[1] == int(np.ceil(event_loop(problem, answer, real, trays) - 1e-6))


@pytest.mark.parametrize("seed", range(120))
def test_without_spread_every_run_of_a_tiny_class_is_its_plan(seed):
    problem = tiny_class(seed)
    answer = plan_by_hand(problem)
    chance = run_classes(problem, answer, Pace(), runs=3)
    assert chance.finish == (answer.finish(problem),) * 3
    assert (chance.queues, chance.holds) == ((), ())


@pytest.mark.parametrize("seed", range(30))
def test_with_a_break_every_run_without_spread_is_its_plan(seed):
    problem = tiny_class_with_a_break(seed)
    answer = plan_by_hand(problem)
    assert run_classes(problem, answer, Pace(), runs=2).finish == (answer.finish(problem),) * 3


def test_who_is_late_does_not_begin_before_a_break_what_would_run_into_it():
    """Ten minutes, then twelve, at a pace half as slow again: 15 + 12 would pass the break at 25."""
    tasks = (Task("a", 10, "1", hands=True), Task("b", 12, "1", hands=True))
    problem = Problem(tasks, (Window("a", "b"),), (Bench("1"),), breaks=(Pause(25, 15),))
    answer = plan_by_hand(problem)
    assert answer.finish(problem) == 22
    assert run_classes(problem, answer, Pace(1500), runs=2).finish == (40 + 18,) * 3


FOLDER = Path(__file__).parents[4] / "shared" / "data" / "classes"


#: Class files that lie beside the checkout; without them these tests are not there.
NAMES = [
    name
    for name in ("menu2-B12-O4-s0", "souffle-B8-O3-s0", "tart-B8-O3-s0")
    if (FOLDER / f"{name}.json").exists()
]


@pytest.mark.parametrize("name", NAMES)
def test_without_spread_every_run_of_a_class_is_its_plan(name):
    path = FOLDER / f"{name}.json"
    problem = problem_of_class(json.loads(path.read_text("utf-8")))
    answer = plan_by_hand(problem, nudges=2)
    chance = run_classes(problem, answer, Pace(), runs=2)
    assert chance.finish == (answer.finish(problem),) * 3
    assert (chance.queues, chance.holds) == ((), ())


def test_a_late_tray_makes_the_next_one_wait():
    problem, answer = one_oven([5, 5], [10, 10])
    slow = {"1": Pace(1800)}
    chance = run_classes(problem, answer, Pace(), runs=1, paces=slow)
    assert chance.finish[1] == 29
    assert [(q.kind, q.minutes) for q in chance.queues] == [("oven", 4.0)]
    assert chance.benches == (("1", 1.0, 19), ("2", 0.0, 29))
    assert chance.in_time == 0.0


def test_two_ready_for_one_oven_that_must_change_its_heat_wait_for_the_heat():
    bench = Bench("1")
    tasks = (
        Task("a", 10, "1", bake=Bake((Stay(10, 1800),))),
        Task("w", 20, "1", hands=True),
        Task("b", 10, "1", bake=Bake((Stay(10, 1500),))),
    )
    problem = Problem(tasks, (Window("w", "b"),), (bench,), (Oven("oven", 2, cold_decicelsius=1800),))
    answer = Answer({"a": 0, "w": 0, "b": 20}, {"a": "oven", "b": "oven"})
    slow = run_classes(problem, answer, Pace(), runs=1, paces={"1": Pace(1000)})
    assert slow.finish[1] == 30
    early = Answer({"a": 12, "w": 0, "b": 28}, {"a": "oven", "b": "oven"})
    assert run_classes(problem, early, Pace(), runs=1).finish[1] == 38
    late = replace(problem, tasks=(replace(tasks[0], minutes=10), *tasks[1:]))
    assert run_classes(late, Answer({"a": 18, "w": 0, "b": 28}, early.ovens), Pace(), runs=1).finish[1] == 44


def test_a_demonstration_waits_for_the_slowest_cook():
    tasks = (Task("1/w", 10, "1", hands=True), Task("2/w", 10, "2", hands=True))
    problem = Problem(
        (*tasks, Task("1/z", 5, "1", hands=True, shown_by="show")),
        benches=(Bench("1"), Bench("2")),
        demonstrations=(Demonstration("show", 5),),
    )
    answer = Answer({"1/w": 0, "2/w": 0, "show": 10, "1/z": 15}, {})
    chance = run_classes(problem, answer, Pace(), runs=1, paces={"2": Pace(1500)})
    assert chance.finish[1] == 25


def test_food_held_too_long_is_counted_with_its_share_of_the_runs():
    tasks = (
        Task("1/melt", 10, "1", hands=False),
        Task("1/pipe", 20, "1", hands=True),
        Task("1/use", 5, "1", hands=True),
    )
    windows = (Window("1/melt", "1/use", 0, 12), Window("1/pipe", "1/use"))
    problem = Problem(tasks, windows, (Bench("1"),), usable_minutes=60)
    answer = Answer({"1/melt": 0, "1/pipe": 0, "1/use": 20}, {})
    assert run_classes(problem, answer, Pace(), runs=4).holds == ()
    slow = run_classes(problem, answer, Pace(1400), runs=4)
    assert [(h.before, h.after, h.share_of_runs) for h in slow.holds] == [("1/melt", "1/use", 1.0)]


def test_more_spread_never_makes_a_full_class_more_likely_to_end_in_time():
    problem, answer = one_oven([20] * 6, [15] * 6)
    shares = [
        run_classes(problem, answer, Pace(1000, spread, spread)).in_time for spread in (0, 50, 150, 300)
    ]
    assert shares[0] == 1.0
    assert shares == sorted(shares, reverse=True)
    assert shares[-1] < 0.6


def test_the_same_seed_gives_the_same_runs_and_another_seed_others():
    problem, answer = one_oven([20] * 6, [15] * 6)
    roomy = replace(problem, usable_minutes=problem.usable_minutes + 8)
    first, again = (run_classes(roomy, answer, GROUPS["first"], seed=7) for _ in range(2))
    other = run_classes(roomy, answer, GROUPS["first"], seed=8)
    assert first == again
    assert first != other
    assert abs(first.in_time - other.in_time) < 0.05


def test_a_learned_pace_has_its_own_middle_and_the_spread_of_its_timings():
    """15 and 12 per cent together are 19.2; timings that spread 38.4 are twice as wide in both."""
    practised = GROUPS["practised"]
    assert learned_pace(practised, 384) == Pace(1000, 300, 240)
    assert learned_pace(GROUPS["first"], None) == Pace(1000, 220, 180)
    assert learned_pace(Pace(), 200) == Pace(1000, 0, 200)


def test_work_at_a_learned_pace_is_not_slowed_by_the_group_again():
    tasks = (Task("1", 100, "1", hands=True),)
    problem = Problem(tasks, (), (Bench("1"),), usable_minutes=200)
    answer = Answer({"1": 0}, {})
    as_first = run_classes(problem, answer, GROUPS["first"])
    as_learned = run_classes(problem, answer, GROUPS["first"], learned={"1": None})
    assert as_first.finish[1] - as_learned.finish[1] == pytest.approx(15, abs=1)
    assert as_learned.finish[1] == pytest.approx(100, abs=2)


def test_wide_timings_make_a_class_less_sure():
    tasks = (Task("1", 100, "1", hands=True),)
    problem = Problem(tasks, (), (Bench("1"),), usable_minutes=120)
    sure = run_classes(problem, Answer({"1": 0}, {}), GROUPS["practised"], learned={"1": 100})
    unsure = run_classes(problem, Answer({"1": 0}, {}), GROUPS["practised"], learned={"1": 400})
    assert sure.in_time > 0.94
    assert 0.6 < unsure.in_time < 0.75
