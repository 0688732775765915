"""Phases of an oven: how many there can be at most, so that a model with so many loses no plan."""

from time import monotonic

import pytest

from kitchen.timeplan import proof
from kitchen.timeplan.answer import Answer
from kitchen.timeplan.effort import Clock, Effort
from kitchen.timeplan.phases import most_phases, phases_of
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Task, Window
from kitchen.timeplan.race import Race
from kitchen.timeplan.solver import NoPlan, solve, solver_module
from tests.builders.timeplan import tiny_class


def tarts(benches: int, rub: int = 60) -> Problem:
    """Tarts rubbed in, baked blind at 180 °C for 20 minutes, filled in 3, baked at 150 °C for 30."""
    names = [str(number) for number in range(1, benches + 1)]
    tasks = [
        task
        for name in names
        for task in (
            Task(f"{name}/rub", rub, name, hands=True),
            Task(f"{name}/blind", 20, name, bake=Bake((Stay(20, 1800),))),
            Task(f"{name}/fill", 3, name, hands=True),
            Task(f"{name}/bake", 30, name, bake=Bake((Stay(30, 1500),))),
        )
    ]
    order = ("rub", "blind", "fill", "bake")
    windows = [Window(f"{n}/{a}", f"{n}/{b}") for n in names for a, b in zip(order, order[1:], strict=False)]
    ovens = (Oven("o", 3), Oven("p", 3))
    return Problem(tuple(tasks), tuple(windows), tuple(Bench(name) for name in names), ovens)


def test_from_one_heat_to_the_other_once_is_two_phases():
    assert most_phases(tarts(6), 140, 9) == 2


def test_with_time_to_go_back_there_are_more():
    # One oven: out at 80, six minutes to cool by 30 °C, out again at 116, three to heat up, a second blind
    # bake is out at 139 and has 33 minutes to come. Or filled first (out at 113), blind (136), filled (172).
    assert most_phases(tarts(6), 171, 9) == 2
    assert most_phases(tarts(6), 172, 9) > 2


def test_nothing_fits_no_phase_and_enough_ends_the_count():
    assert most_phases(tarts(2), 50, 9) == 0
    assert most_phases(tarts(6), 900, 4) == 4


def test_there_are_no_more_phases_than_bakes():
    assert most_phases(tarts(1), 10_000, 9) == 2


def test_every_load_behind_a_shut_door_is_a_phase_of_its_own():
    shut = Bake((Stay(10, 2000),), door_shut=True)
    tasks = tuple(Task(f"{n}/puff", 10, str(n), bake=shut) for n in range(4))
    problem = Problem(tasks, (), tuple(Bench(str(n)) for n in range(4)), (Oven("o", 1),))
    heat = problem.ovens[0].heat_up_minutes(shut)
    assert [most_phases(problem, heat + minutes, 9) for minutes in (9, 10, 20, 39, 40, 90)] == [
        0,
        1,
        2,
        3,
        4,
        4,
    ]


@pytest.mark.parametrize("seed", range(40))
def test_no_answer_of_a_tiny_class_has_more(seed):
    problem = tiny_class(seed)
    try:
        solved = solve(problem, Effort(work=0.3))
    except NoPlan:
        return
    most = most_phases(problem, solved.finish_minutes, 99)
    assert all(len(phases) <= most for phases in phases_of(problem, solved.answer).values())


@pytest.mark.skipif(solver_module() is None, reason="the solver is not installed")
@pytest.mark.parametrize("counted, proved", [(2, 14), (1, 20)])
def test_a_phase_too_few_would_prove_too_much(monkeypatch, counted, proved):
    # One oven of one tray: 4 minutes at 180 °C, 2 to cool by 10, 4 at 170 °C; cold for 4 before: 14.
    tasks = (
        Task("1/hot", 4, "1", bake=Bake((Stay(4, 1800),))),
        Task("1/cool", 4, "1", bake=Bake((Stay(4, 1700),))),
    )
    oven = Oven("o", 1, cold_decicelsius=1400)
    problem = Problem(tasks, (Window("1/hot", "1/cool"),), (Bench("1"),), (oven,))
    monkeypatch.setattr(proof, "most_phases", lambda *_: counted)
    late = Answer({"1/hot": 4, "1/cool": 16}, {"1/hot": "o", "1/cool": "o"})
    race, clock = Race(20, 0), Clock(Effort(seconds=5.0), monotonic(), monotonic)
    bound, _ = proof.prove(solver_module(), problem, late, 0, clock, race)
    assert bound == proved
