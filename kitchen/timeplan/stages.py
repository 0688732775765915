"""An answer made easier to lead at the same finish: food stands less, ovens change their heat less.

For ``solver.py``, which hands over the solver's module and sets how long to look. The order
of what counts: the finish, then the minutes of holding, then the changes of heat. Each
stage begins with the answer it was given and never returns a worse one.
"""

from collections.abc import Callable
from itertools import pairwise
from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer, holding_minutes
from kitchen.timeplan.model import Built, Phase, build, hint, phases_of
from kitchen.timeplan.problem import Problem

#: Up to so many bakes every oven gets a phase for each of them, and the model is exact.
FEW_BAKES = 8


def phases_needed(problem: Problem, answer: Answer | None) -> int:
    """Phases an oven may have: all that could be needed in a small class, else what the answer uses."""
    bakes = sum(task.bake is not None for task in problem.tasks)
    if bakes <= FEW_BAKES:
        return max(1, bakes)
    used = [len(phases) for phases in phases_of(problem, answer).values()] if answer else [3]
    return max(2, *used)


def heat_changes(problem: Problem, answer: Answer) -> int:
    """How often an oven changes its heat between two loads, over all ovens."""
    rows = phases_of(problem, answer).values()
    return sum(_changes(problem, first, second) for phases in rows for first, second in pairwise(phases))


def _changes(problem: Problem, first: Phase, second: Phase) -> bool:
    before, after = problem.task[first.bakes[0]].bake, problem.task[second.bakes[0]].bake
    assert before is not None and after is not None
    return before.stays[-1].decicelsius != after.begins_at


def fewest_other_ways(
    cp: ModuleType, problem: Problem, answer: Answer, workers: int, limit: Callable[[Any], None]
) -> Answer:
    """Steps are done the usual way wherever the finish allows it."""
    built = _as_good_as(cp, problem, answer)
    others = {x.index: x for taken in built.way.values() for x in taken[1:]}
    built.model.minimize(sum(others.values()))
    found = _looked(built, answer, workers, limit)
    return found if len(found.ways) <= sum(map(bool, answer.ways.values())) else answer


def less_holding(
    cp: ModuleType, problem: Problem, answer: Answer, workers: int, limit: Callable[[Any], None]
) -> Answer:
    """Food stands less, at the same finish."""
    built = _as_good_as(cp, problem, answer)
    built.model.minimize(_holding(built))
    found = _looked(built, answer, workers, limit)
    return found if holding_minutes(problem, found) <= holding_minutes(problem, answer) else answer


def fewer_changes(
    cp: ModuleType, problem: Problem, answer: Answer, workers: int, limit: Callable[[Any], None]
) -> Answer:
    """Ovens are loaded at fewer heats, at the same finish and with no more holding."""
    built = _as_good_as(cp, problem, answer)
    built.model.add(_holding(built) <= _holding_of(problem, answer))
    later = [phase.used for (_, number), phase in built.phase.items() if number > 0]
    built.model.minimize(sum(later))
    found = _looked(built, answer, workers, limit)
    no_worse = holding_minutes(problem, found) <= holding_minutes(problem, answer)
    return found if no_worse and heat_changes(problem, found) < heat_changes(problem, answer) else answer


def _as_good_as(cp: ModuleType, problem: Problem, answer: Answer) -> Built:
    phases = phases_needed(problem, answer)
    return build(cp, problem, answer.finish(problem), pooled=False, phases=phases)


def _looked(built: Built, answer: Answer, workers: int, limit: Callable[[Any], None]) -> Answer:
    """What one search finds, beginning with the answer; the answer itself when it finds nothing."""
    hint(built, answer)
    solver = built.cp.CpSolver()
    solver.parameters.num_workers = workers
    limit(solver)
    status = solver.solve(built.model)
    return built.answer(solver) if status in (built.cp.OPTIMAL, built.cp.FEASIBLE) else answer


def _holding(built: Built) -> Any:
    """Eight for each minute of holding, one for each minute between a demonstration and its use."""
    return _weighed(built.problem, built.start)


def _holding_of(problem: Problem, answer: Answer) -> int:
    return _weighed(problem, answer.starts)


def _weighed(problem: Problem, start: Any) -> Any:
    held = [
        start[w.after] - start[w.before] - problem.task[w.before].minutes - w.least for w in problem.holds
    ]
    shown = [start[t.name] - start[t.shown_by] for t in problem.tasks if t.shown_by is not None]
    return 8 * sum(held) + sum(shown)
