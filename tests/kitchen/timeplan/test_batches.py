"""Loads behind a shut door: the bound that they prove, and starts that are given ovens."""

from dataclasses import replace

import pytest

from kitchen.timeplan import batches
from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.model import build
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Supply, Task, Window
from kitchen.timeplan.solver import solve, solver_module
from tests.builders.timeplan import shortest_by_trying

SHUT = Bake((Stay(3, 2000),), door_shut=True)
HOT = {"heat_seconds": 0, "cool_seconds": 0}


def puffs(benches: int, ovens: int, trays: int, mixers: int = 1, gap: int | None = 4) -> Problem:
    """Benches that each beat for a minute (so many mixers), then bake three minutes with the door shut."""
    names = [str(number) for number in range(1, benches + 1)]
    return Problem(
        tasks=tuple(
            task
            for name in names
            for task in (
                Task(f"{name}/beat", 1, name, hands=True, uses=(("mixer", 1),)),
                Task(f"{name}/bake", 3, name, bake=SHUT),
            )
        ),
        windows=tuple(Window(f"{name}/beat", f"{name}/bake", 0, gap) for name in names),
        benches=tuple(Bench(name) for name in names),
        ovens=tuple(Oven(f"oven {n}", trays, **HOT) for n in range(1, ovens + 1)),
        supplies=(Supply("mixer", mixers),),
    )


@pytest.mark.parametrize(
    ("benches", "ovens", "trays", "gap"), [(2, 1, 2, 4), (3, 1, 2, 0), (3, 1, 2, 1), (3, 1, 1, 4)]
)
def test_finish_and_bound_are_the_shortest_there_is(benches, ovens, trays, gap):
    problem = puffs(benches, ovens, trays, gap=gap)
    solved = solve(problem, Effort(work=1.0, holding=False))
    shortest = shortest_by_trying(problem, solved.finish_minutes)
    assert (solved.finish_minutes, solved.bound_minutes) == (shortest, shortest)
    assert check(problem, solved.answer) == []


def test_where_nothing_may_wait_each_load_is_one_tray():
    """By hand: one mixer, no wait, one oven of two trays: in at 1, 4, 7, 10, out at 13."""
    solved = solve(puffs(4, 1, 2, gap=0), Effort(work=1.0, holding=False))
    assert (solved.finish_minutes, solved.bound_minutes) == (13, 13)


def test_one_pool_of_trays_alone_proves_less():
    """By hand, the same as one pool: two trays, in at 1, 2, 4, 5, out at 8."""
    cp = solver_module()
    built = build(cp, puffs(4, 1, 2, gap=0), 20, pooled=True)
    assert least_finish(cp, built) == 8
    batches.add_loads(built)
    assert least_finish(cp, built) == 13


def test_an_oven_too_few_in_the_loads_proves_too_much():
    """The planted violation: by hand two ovens of one tray take four puffs in 1, 2, 4, 5, out at 8."""
    cp, problem = solver_module(), puffs(4, 2, 1, gap=0)
    right, wrong = (build(cp, problem, 20, pooled=True) for _ in range(2))
    batches.add_loads(right)
    wrong.problem = replace(problem, ovens=problem.ovens[:1])
    batches.add_loads(wrong)
    assert (least_finish(cp, right), least_finish(cp, wrong)) == (8, 13)


def test_bakes_fixed_to_one_oven_are_loads_of_that_oven():
    """By hand: two ovens of one tray, all four puffs fixed to the second: as with one oven, 13."""
    problem = puffs(4, 2, 1, gap=0)
    tasks = tuple(replace(t, only_ovens=("oven 2",)) if t.bake else t for t in problem.tasks)
    fixed = replace(problem, tasks=tasks)
    cp = solver_module()
    built = build(cp, fixed, 20, pooled=True)
    batches.add_loads(built)
    assert least_finish(cp, built) == 13


def least_finish(cp, built) -> int:
    """The proved least finish of a model."""
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(built.model) == cp.OPTIMAL
    return round(solver.objective_value)


class TestOvensForStarts:
    def test_trays_of_one_load_share_an_oven_and_the_next_load_has_its_own(self):
        problem = puffs(4, 2, 2, mixers=4)
        starts = {f"{n}/beat": 0 for n in "1234"} | {"1/bake": 1, "2/bake": 1, "3/bake": 2, "4/bake": 2}
        found = batches.ovens_for(problem, Answer(starts, {}))
        assert found is not None
        assert (
            found.ovens["1/bake"] == found.ovens["2/bake"] != found.ovens["3/bake"] == found.ovens["4/bake"]
        )

    def test_starts_for_which_no_oven_is_free_get_none(self):
        problem = puffs(3, 1, 2, mixers=3)
        starts = {f"{n}/beat": 0 for n in "123"} | {"1/bake": 1, "2/bake": 2, "3/bake": 4}
        assert batches.ovens_for(problem, Answer(starts, {})) is None

    def test_a_bake_that_is_fixed_to_an_oven_is_given_that_one(self):
        problem = puffs(2, 2, 2, mixers=2)
        tasks = tuple(replace(t, only_ovens=("oven 1",)) if t.name == "2/bake" else t for t in problem.tasks)
        fixed = replace(problem, tasks=tasks)
        for first in (1, 2):
            starts = {"1/beat": 0, "2/beat": 0, "1/bake": first, "2/bake": 2}
            assert batches.ovens_for(fixed, Answer(starts, {})).ovens["2/bake"] == "oven 1"

    def test_a_bake_at_another_heat_waits_for_the_change(self):
        cool = Bake((Stay(3, 1500),))
        plain = Bake((Stay(3, 2000),))
        problem = Problem(
            tasks=(Task("a", 3, bake=plain), Task("b", 3, bake=cool)),
            ovens=(Oven("oven", 2, heat_seconds=0, cool_seconds=60),),
        )
        assert batches.ovens_for(problem, Answer({"a": 0, "b": 7}, {})) is None
        assert batches.ovens_for(problem, Answer({"a": 0, "b": 8}, {})) is not None
