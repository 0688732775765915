"""The re-plan: pushed to the right at once, then made better for what is left of a second.

For the page of the day and the benchmark. ``replan`` never moves what has begun, never
answers with a plan that cannot be cooked, and when nothing was disturbed gives the old plan
back. Holds that are too long are soft on the day: the answer says which.
"""

from collections.abc import Callable
from dataclasses import dataclass
from time import monotonic

from kitchen.timeplan.answer import Answer, Break
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.repair import pushed
from kitchen.timeplan.day.situation import Price, Situation, price
from kitchen.timeplan.day.soft import soft_model
from kitchen.timeplan.problem import Oven
from kitchen.timeplan.solver import solver_module
from kitchen.timeplan.taken import Taken

#: Seconds of a re-plan in all; a second is promised.
SECONDS = 0.85
#: Share of what is left for the search that leaves every bake in its oven.
KEPT_SHARE = 0.45


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


def replan(at: Situation, seconds: float = SECONDS, workers: int = 2) -> Replan:
    """The least disturbance that is found in the time; legal, or none."""
    began = monotonic()

    def left() -> float:
        return seconds - (monotonic() - began)

    best = _cheapest(at, pushed(at, lambda: left() > seconds / 2))
    how = "nothing moves" if best and price(at, best).figure == 0 else "moved later"
    cp = solver_module()
    if best is not None and cp is not None and at.coming and price(at, best).figure > 0:
        found = _searched(at, best, left, workers)
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


def _searched(at: Situation, first: Answer, left: Callable[[], float], workers: int) -> Answer:
    """Ovens kept, then free, each beginning with the best so far."""
    best = first
    for keep, share in ((True, KEPT_SHARE), (False, 1.0)):
        if left() < 0.12:
            break
        found = _search(at, best, left, share, workers, keep)
        if found is not None:
            best = _cheapest(at, [best, found, settled(at, found)]) or best
    return best


def _search(
    at: Situation, first: Answer, left: Callable[[], float], share: float, workers: int, keep: bool
) -> Answer | None:
    cp = solver_module()
    assert cp is not None
    soft = soft_model(cp, at, first, keep_ovens=keep)
    seconds = left() * share
    if seconds < 0.05:
        return None
    solver = cp.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = 1
    solver.parameters.max_time_in_seconds = seconds
    if solver.solve(soft.built.model) not in (cp.OPTIMAL, cp.FEASIBLE):
        return None
    return soft.answer(solver)


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
