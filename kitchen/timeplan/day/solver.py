"""The re-plan: pushed to the right at once, then made better for what is left of a second.

For the page of the day and the benchmark. ``replan`` never moves what has begun, never
answers with a plan that cannot be cooked, and when nothing was disturbed gives the old plan
back. Holds that are too long are soft on the day: the answer says which.
"""

from collections.abc import Callable
from dataclasses import dataclass
from threading import Thread
from time import monotonic
from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer, Break
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.near import Near
from kitchen.timeplan.day.repair import pushed
from kitchen.timeplan.day.situation import Price, Situation, price
from kitchen.timeplan.day.soft import Soft
from kitchen.timeplan.problem import Oven
from kitchen.timeplan.solver import solver_module
from kitchen.timeplan.taken import Taken

#: Seconds of a re-plan in all; a second is promised.
SECONDS = 0.9
#: With less than this no further piece is begun; so long one core waits for the other at the end. Our own
#: choice, no source.
LEAST_SECONDS, LAST_SECONDS = 0.03, 0.03
#: Building the model takes up to so many times as long as pushing to the right did.
BUILDING = 1.5
#: Of the time for searching, so much is spent on the whole. Our own choice, measured on more
#: disturbances than the benchmark has; no source.
WHOLE_SHARE = 0.7


@dataclass(frozen=True, slots=True)
class Replan:
    """What came of a re-plan. ``answer`` None: nothing that can be cooked was found.

    ``broken`` are holds that are too long; ``how`` is "nothing moves", "moved later" or "found".
    """

    at: Situation
    answer: Answer | None
    price: Price | None
    broken: tuple[Break, ...]
    how: str
    seconds: float


def replan(at: Situation, seconds: float = SECONDS) -> Replan:
    """The least disturbance that is found in the time; legal, or none."""
    began = monotonic()

    def left() -> float:
        return seconds - (monotonic() - began)

    best = _cheapest(at, pushed(at, lambda: left() > seconds / 2))
    how = "nothing moves" if best and price(at, best).figure == 0 else "moved later"
    has_time = left() > BUILDING * (seconds - left())
    if best is not None and has_time and at.coming and price(at, best).figure > 0 and solver_module():
        found = _searched(at, best, left)
        if price(at, found).figure < price(at, best).figure:
            best, how = found, "found"
    return _told(at, best, how, monotonic() - began)


def _told(at: Situation, best: Answer | None, how: str, seconds: float) -> Replan:
    if best is None:
        return Replan(at, None, None, (), "none", seconds)
    broken = tuple(check_from(at.problem, best, at.past))
    return Replan(at, best, price(at, best), broken, how, seconds)


def _cheapest(at: Situation, answers: list[Answer]) -> Answer | None:
    """The cheapest that can be cooked; of equal ones that which leaves most bakes in their ovens."""
    can = [a for a in answers if not hard(check_from(at.problem, a, at.past))]
    return min(can, key=lambda a: (price(at, a).figure, oven_moves(at, a)), default=None)


def oven_moves(at: Situation, answer: Answer) -> int:
    """How many bakes still to come are in another oven than before."""
    return sum(answer.ovens[name] != oven for name, oven in at.old.ovens.items())


def _searched(at: Situation, first: Answer, left: Callable[[], float]) -> Answer:
    """Piece by piece; beside it as a whole, from what the first piece brought, and then in pieces too."""
    near = Near(solver_module(), at, first, left)
    near.search_one()
    other = _Other(near)
    other.start()
    while left() > LEAST_SECONDS and near.figure > 0 and not other.proved:
        near.search_one()
        near.take(other.best)
    other.end()
    near.take(other.best)
    return _cheapest(at, [near.best, settled(at, near.best)]) or first


class _Other(Thread):
    """What the other core does; ``best`` is the cheapest answer it has, ``proved`` that none is cheaper."""

    def __init__(self, near: Near) -> None:
        super().__init__(daemon=True)
        self.near, self.twin, self.best = near, near.twin(), near.best
        self.proved = self.ended = False
        self._model = near.model_of_all()
        self._told = _told_by(near.cp, near.soft, self._keep)
        #: Its two workers look in unlike ways: what neither the pieces nor one of them finds, the other may.
        self._solver = near.cp.CpSolver()
        self._solver.parameters.num_workers = 2
        self._solver.parameters.random_seed = 1
        #: Looking for symmetries and probing take longer than they save in the part of a second there is.
        self._solver.parameters.symmetry_level = 0
        self._solver.parameters.cp_model_probing_level = 0
        self._solver.parameters.max_time_in_seconds = max(0.01, near.left() * WHOLE_SHARE)

    def run(self) -> None:
        """Search until the end."""
        self.proved = self._solver.solve(self._model, self._told) == self.near.cp.OPTIMAL
        while not self.proved and not self.ended and self.near.left() > LEAST_SECONDS:
            self.twin.take(self.near.best)
            self.twin.search_one()
            self._keep(self.twin.best)

    def end(self) -> None:
        """Stop; what has not stopped soon is not waited for, its best answer is there already."""
        self.ended = True
        self._solver.stop_search()
        self.join(LAST_SECONDS)

    def _keep(self, answer: Answer) -> None:
        self.twin.take(answer)
        self.best = self.twin.best


def _told_by(cp: ModuleType, soft: Soft, keep: Callable[[Answer], None]) -> Any:
    """What the solver calls with each better answer."""

    class Told(cp.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            keep(soft.answer(self))

    return Told()


def settled(at: Situation, answer: Answer) -> Answer:
    """The same minutes with every bake in its old oven where that takes it."""
    room = Taken(at.problem, {})
    for task in at.problem.tasks:
        if task.bake is not None and task.name in at.past.fixed:
            start = at.old.starts[task.name]
            room.inside[at.old.ovens[task.name]].append((start, start + task.minutes, task.bake, task.name))
    ovens = {oven.name: oven for oven in at.problem.ovens}
    for task in sorted(at.coming, key=lambda t: (answer.starts[t.name], t.name)):
        if task.bake is None:
            continue
        wanted = [ovens[at.old.ovens[task.name]], ovens[answer.ovens[task.name]], *at.problem.ovens]
        found = next((o for o in wanted if _takes(at, room, o, task.bake, answer.starts[task.name])), None)
        if found is None:
            return answer
        room.oven_of[task.name] = found
        start = answer.starts[task.name]
        room.inside[found.name].append((start, start + task.minutes, task.bake, task.name))
    return Answer(answer.starts, {**answer.ovens, **{n: o.name for n, o in room.oven_of.items()}})


def _takes(at: Situation, room: Taken, oven: Oven, bake: object, start: int) -> bool:
    return at.works(oven) and room.takes(oven, bake, start)
