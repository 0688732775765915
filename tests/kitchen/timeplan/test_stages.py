"""Easier answers at the same finish: less holding first, then fewer changes of heat."""

import pytest

from kitchen.timeplan.answer import Answer, check, holding_minutes
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Task, Window
from kitchen.timeplan.solver import solve, solver_module
from kitchen.timeplan.stages import fewer_changes, heat_changes, less_holding, phases_needed

OVENS = (Oven("left", 2, cold_decicelsius=1500), Oven("right", 2, cold_decicelsius=1500))


def a_bake(name, minutes, degrees):
    return Task(name, minutes, name[0], bake=Bake((Stay(minutes, 10 * degrees),)))


def limit(solver):
    solver.parameters.max_deterministic_time = 2.0


@pytest.fixture
def mixed():
    """Two heats, two ovens, four bakes: each oven could keep its heat, this answer changes both."""
    tasks = (a_bake("1a", 10, 150), a_bake("2a", 10, 150), a_bake("1b", 10, 160), a_bake("2b", 10, 160))
    windows = (Window("1a", "1b", 0, None), Window("2a", "2b", 0, None))
    problem = Problem(tasks, windows, (Bench("1"), Bench("2")), OVENS)
    starts = {"1a": 0, "2a": 0, "1b": 11, "2b": 11}
    return problem, Answer(starts, {"1a": "left", "2a": "right", "1b": "left", "2b": "right"})


def test_changes_are_counted_between_loads_of_different_heat(mixed):
    problem, answer = mixed
    assert check(problem, answer) == []
    assert heat_changes(problem, answer) == 2
    kept = Answer(answer.starts, {"1a": "left", "2a": "left", "1b": "right", "2b": "right"})
    assert (check(problem, kept), heat_changes(problem, kept)) == ([], 0)


def test_the_third_stage_finds_the_ovens_that_keep_their_heat(mixed):
    problem, answer = mixed
    found = fewer_changes(solver_module(), problem, answer, 1, limit)
    assert check(problem, found) == []
    assert heat_changes(problem, found) == 0
    assert found.finish(problem) <= answer.finish(problem)
    assert holding_minutes(problem, found) <= holding_minutes(problem, answer)


def test_less_holding_comes_before_fewer_changes(mixed):
    problem, answer = mixed
    lazy = Answer(dict(answer.starts) | {"1b": 15, "2b": 15}, answer.ovens)
    found = less_holding(solver_module(), problem, lazy, 1, limit)
    assert holding_minutes(problem, found) == 0
    whole = solve(problem, Effort(work=1.0))
    assert holding_minutes(problem, whole.answer) == 0
    assert heat_changes(problem, whole.answer) == 0


def test_what_cannot_be_made_easier_stays_as_it_is(mixed):
    problem, answer = mixed
    best = Answer(answer.starts, {"1a": "left", "2a": "left", "1b": "right", "2b": "right"})
    assert fewer_changes(solver_module(), problem, best, 1, limit) is best


def test_a_small_class_has_a_phase_for_every_bake_and_a_large_one_what_its_answer_uses(mixed):
    problem, answer = mixed
    assert phases_needed(problem, answer) == 4
    many = Problem(
        tuple(a_bake(f"{n}a", 10, 150) for n in range(1, 10)),
        (),
        tuple(Bench(str(n)) for n in range(1, 10)),
        OVENS,
    )
    starts = {t.name: 10 * (i // 4) for i, t in enumerate(many.tasks)}
    ovens = {t.name: ("left", "right")[i % 2] for i, t in enumerate(many.tasks)}
    assert phases_needed(many, Answer(starts, ovens)) == 2
    assert phases_needed(many, None) == 3
