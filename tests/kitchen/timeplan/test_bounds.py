"""Bounds on paper: chains and loads, never above what can be done."""

from dataclasses import replace

import pytest

from kitchen.timeplan.bounds import all_bounds, best_bound, far, heads, longest_chain, tails
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.problem import Bake, Bench, Oven, Pause, Problem, Stay, Supply, Task, Window
from tests.builders.timeplan import shortest_by_trying, tiny_class, tiny_class_with_a_break, two_benches


def test_the_longest_chain_names_its_tasks():
    chain = longest_chain(two_benches())
    assert chain.minutes == 10 + 5 + 2 + 20 + 5
    assert chain.tasks[-4:] == tuple(
        f"{chain.tasks[0][0]}/{part}" for part in ("mix", "rest", "bake", "plate")
    )


def test_heads_look_back_through_holds():
    tasks = (Task("a", 5), Task("b", 10, bake=Bake((Stay(10, 1800),))))
    problem = Problem(tasks=tasks, windows=(Window("a", "b", 0, 2),), ovens=(Oven("o", 1),))
    assert heads(problem) == {"a": 9, "b": 16}
    assert tails(problem) == {"a": 10, "b": 0}


def test_seven_trays_in_ovens_for_four_take_their_time():
    """The worked example of the module: 55 + 62 + 31."""
    tasks, windows = [], []
    for n in range(7):
        tasks += [Task(f"{n}a", 55), Task(f"{n}b", 35, bake=Bake((Stay(35, 300),))), Task(f"{n}c", 31)]
        windows += [Window(f"{n}a", f"{n}b"), Window(f"{n}b", f"{n}c")]
    ovens = (Oven("left", 2), Oven("right", 2))
    best = best_bound(Problem(tasks=tuple(tasks), windows=tuple(windows), ovens=ovens))
    assert (best.minutes, best.kind) == (148, "ovens")


def test_every_shared_thing_has_its_bound():
    kinds = {(b.kind, b.about) for b in all_bounds(two_benches())}
    assert {("hands", "1"), ("hands", "2"), ("lecturer", ""), ("ovens", ""), ("supply", "mixer")} <= kinds


@pytest.mark.parametrize("seed", range(40))
def test_no_bound_is_above_the_shortest_plan(seed):
    problem = tiny_class(seed)
    shortest = shortest_by_trying(problem, plan_by_hand(problem).finish(problem))
    assert best_bound(problem).minutes <= shortest


@pytest.mark.parametrize("seed", range(40))
def test_no_bound_is_above_the_shortest_plan_with_a_break(seed):
    problem = tiny_class_with_a_break(seed)
    shortest = shortest_by_trying(problem, plan_by_hand(problem).finish(problem))
    assert best_bound(problem).minutes <= shortest


def test_work_that_a_break_falls_into_takes_so_much_longer_and_work_before_it_does_not():
    """Thirty minutes of one cook in pieces of ten: a break from 25 to 40 leaves two before it."""
    tasks = tuple(Task(str(n), 10, "1", hands=True) for n in range(3))
    problem = Problem(tasks, benches=(Bench("1"),), breaks=(Pause(25, 15),))
    assert best_bound(problem).minutes == 45
    assert plan_by_hand(problem).finish(problem) == 50
    assert best_bound(replace(problem, breaks=(Pause(30, 15),))).minutes == 30


def test_an_overstrong_bound_would_be_caught():
    """Planted: the work of one cook taken as if nothing could wait beside it."""
    tasks = (Task("a", 5, "1", hands=True), Task("b", 5, "1"))
    problem = Problem(tasks=tasks, benches=(Bench("1"),), supplies=(Supply("x", 1),), ovens=(Oven("o", 1),))
    overstrong = sum(task.minutes for task in tasks)
    assert overstrong > shortest_by_trying(problem, 10) >= best_bound(problem).minutes


@pytest.mark.parametrize("cool", [60, 120, 240, 300])
def test_an_oven_that_cools_slowly_is_done_by_the_far_minute(cool):
    """230 °C, then 120 °C, in an oven that heats fast and cools slowly: a plan there is ends by then."""
    oven = Oven("O", 2, heat_seconds=30, cool_seconds=cool)
    first = Task("a", 10, "1", bake=Bake((Stay(10, 2300),)))
    second = Task("b", 10, "1", bake=Bake((Stay(10, 1200),)))
    problem = Problem((first, second), (Window("a", "b"),), (Bench("1"),), (oven,))
    begins = oven.heat_up_minutes(first.bake)
    ends = begins + 10 + oven.between_minutes(first.bake, second.bake) + 10
    assert far(problem) >= ends
