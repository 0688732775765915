"""Benches alike in everything are twins; whatever tells two apart makes them none."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Task, Window
from kitchen.timeplan.twins import ordering, sorted_by_twins, twin_benches

SHUT = Bake((Stay(3, 2000),), door_shut=True)


def pair() -> Problem:
    """Two benches that each mix, bake with the door shut, and plate; one task of nobody before all."""
    names = ("mix", "bake", "plate")
    tasks = [Task("deliver", 2)]
    for bench in "12":
        tasks += [
            Task(f"{bench}/mix", 2, bench, hands=True),
            Task(f"{bench}/bake", 3, bench, bake=SHUT),
            Task(f"{bench}/plate", 1, bench, hands=True),
        ]
    windows = [Window(f"{b}/{x}", f"{b}/{y}") for b in "12" for x, y in zip(names, names[1:], strict=False)]
    windows += [Window("deliver", f"{bench}/mix", 1) for bench in "12"]
    return Problem(tuple(tasks), tuple(windows), (Bench("1"), Bench("2")), (Oven("o", 2),))


def test_benches_alike_are_twins_and_their_shut_bake_puts_them_in_order():
    twins = twin_benches(pair())
    assert twins == [[["1/mix", "1/bake", "1/plate"], ["2/mix", "2/bake", "2/plate"]]]
    assert ordering(pair(), twins[0][0]) == "1/bake"


def test_benches_that_bake_twice_are_in_the_order_of_their_ends():
    problem = pair()
    again = [Task(f"{bench}/glaze", 2, bench, bake=Bake((Stay(2, 1600),))) for bench in "12"]
    names = ["1/mix", "1/bake", "1/glaze", "1/plate"]
    assert ordering(replace(problem, tasks=(*problem.tasks, *again)), names) == "1/plate"


@pytest.mark.parametrize(
    "window",
    [Window("deliver", "2/mix", 4), Window("deliver", "2/mix", 1, 9), Window("2/mix", "2/bake", 0, 0)],
)
def test_a_wait_that_one_of_them_has_makes_them_none(window):
    problem = pair()
    others = [w for w in problem.windows if (w.before, w.after) != (window.before, window.after)]
    assert twin_benches(replace(problem, windows=(*others, window))) == []


@pytest.mark.parametrize("change", [{"latest": 5}, {"earliest": 5}, {"minutes": 3}, {"lecturer": True}])
def test_a_task_that_one_of_them_has_otherwise_makes_them_none(change):
    problem = pair()
    tasks = tuple(replace(t, **change) if t.name == "2/mix" else t for t in problem.tasks)
    assert twin_benches(replace(problem, tasks=tasks)) == []


def test_an_answer_is_put_in_the_order_of_the_bakes_and_stays_the_same_answer():
    starts = {"deliver": 0, "1/mix": 9, "1/bake": 20, "1/plate": 23, "2/mix": 3, "2/bake": 6, "2/plate": 40}
    ovens = {"1/bake": "o", "2/bake": "o"}
    ordered = sorted_by_twins(pair(), Answer(starts, ovens))
    assert (ordered.starts["1/bake"], ordered.starts["2/bake"], ordered.starts["1/plate"]) == (6, 20, 40)
    assert sorted(ordered.starts.values()) == sorted(starts.values())
