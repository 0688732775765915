"""What no plan can beat, proved by the solver beside the search for one.

For ``solver.py``, which gives the solver's module. First of all ovens as one pool of trays, which
forgets their heats; then, where no oven can change its heat often in the time there is, of
the ovens as they are.
"""

from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.batches import add_loads, ovens_for
from kitchen.timeplan.bounds import far
from kitchen.timeplan.effort import Clock, search_share
from kitchen.timeplan.model import build, hint
from kitchen.timeplan.phases import most_phases
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.race import Race

#: With more phases an oven the model of the real ovens proves nothing in the time there is.
MOST_EXACT_PHASES = 3


def horizon(problem: Problem, answer: Answer | None) -> int:
    """No plan worth having is longer: the answer known, or everything one after another."""
    return far(problem) if answer is None else answer.finish(problem)


def is_its_own_relaxation(problem: Problem) -> bool:
    """Whether nothing bakes and nobody leads: leaving the ovens out leaves nothing out."""
    return problem == problem.free() and not any(task.bake for task in problem.tasks)


def relax(
    cp: ModuleType,
    problem: Problem,
    answer: Answer | None,
    known: int,
    left: Clock,
    race: Race | None = None,
) -> tuple[int, Answer | None]:
    """A bound of the free question with its ovens as one pool of trays.

    Where nothing bakes and nobody leads, that is the question itself: its answer is taken too,
    and it gets nearly all the time, since there is nothing to do after it.
    """
    free, whole = problem.free(), is_its_own_relaxation(problem)
    built = build(cp, free, horizon(problem, answer), pooled=True)
    built.model.add(built.finish >= known)
    add_loads(built)
    if answer is not None:
        hint(built, answer)
    solver = _prover(cp, left, race)
    solver.parameters.use_objective_lb_search = not whole
    if race is None:
        left.limit(solver, 0.97 if whole else 0.35)
    status = solver.solve(built.model)
    if status not in (cp.OPTIMAL, cp.FEASIBLE, cp.UNKNOWN):
        return known, answer
    bound = max(known, -int(-solver.best_objective_bound // 1))
    if status == cp.UNKNOWN:
        return bound, answer
    found = ovens_for(problem, built.answer(solver))
    if found is not None and race is not None:
        race.found(found.finish(problem))
    return bound, sooner(problem, answer, found)


def _prover(cp: ModuleType, left: Clock, race: Race | None) -> Any:
    """One worker that raises the bound minute by minute, and tells the race of each."""
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.linearization_level = 0
    solver.parameters.use_objective_lb_search = True
    left.limit(solver, search_share(left.effort))
    if race is not None:
        solver.best_bound_callback = lambda value: race.proved(-int(-value // 1))
        race.join(solver)
    return solver


def prove(
    cp: ModuleType, problem: Problem, answer: Answer, known: int, left: Clock, race: Race
) -> tuple[int, Answer | None]:
    """The bound of one pool of trays, then, where an oven can have few phases only, of the real ovens."""
    bound, answer_now = relax(cp, problem, answer, known, left, race)
    free, shorter = problem.free(), race.best - 1
    phases = most_phases(free, shorter, MOST_EXACT_PHASES + 1)
    if shorter < bound or phases > MOST_EXACT_PHASES:
        return bound, answer_now
    built = build(cp, free, shorter, pooled=False, phases=phases)
    built.model.add(built.finish >= bound)
    solver = _prover(cp, left, race)
    status = solver.solve(built.model)
    if status == cp.INFEASIBLE:
        race.proved(shorter + 1)
        return shorter + 1, answer_now
    bound = max(bound, -int(-solver.best_objective_bound // 1))
    if status in (cp.OPTIMAL, cp.FEASIBLE) and not check(problem, found := built.answer(solver)):
        race.found(found.finish(problem))
        return bound, sooner(problem, answer_now, found)
    return bound, answer_now


def is_exact(problem: Problem, phases: int, horizon: int) -> bool:
    """Whether a model with so many phases loses no plan within the horizon, so that its proof is of the
    real question."""
    return most_phases(problem, horizon, phases + 1) <= phases


def sooner(problem: Problem, first: Answer | None, second: Answer | None) -> Answer | None:
    """The one that ends sooner; the first when they end together, None when there is none."""
    found = [answer for answer in (first, second) if answer is not None]
    return min(found, key=lambda answer: answer.finish(problem), default=None)
