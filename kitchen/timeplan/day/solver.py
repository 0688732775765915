"""The re-plan: pushed to the right at once, then made better for what is left of a second.

For the page of the day and the benchmark. ``replan`` never moves what has begun, never
answers with a plan that cannot be cooked, and when nothing was disturbed gives the old plan
back. Holds that are too long are soft on the day: the answer says which.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from random import Random
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
#: Shares of what is left: for the touched benches alone, and for each turn after that.
TOUCHED_SHARE, ROUND_SHARE = 0.45, 0.35
#: What is searched in turn.
TURNS = ("near, kept", "kept", "near", "all")
#: With less than this no search is begun.
LEAST_SECONDS = 0.1
#: Up to so many things to come are searched as a whole first.
SMALL = 80
#: Benches of one neighbourhood that moved; half as many come by chance.
NEAR = 6


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
        found = _searched(at, best, left, workers, seconds - left())
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


def _searched(
    at: Situation, first: Answer, left: Callable[[], float], workers: int, pushing: float
) -> Answer:
    """The touched benches alone; then, in turns, all with ovens kept, some benches, and all."""
    search = _Search(at, left, workers, first, build=pushing / 2)
    if at.touched:
        stand = Answer({**first.starts, **at.wished}, {**first.ovens, **_works(at, first)})
        search.try_one(_hinted(at, stand, first), TOUCHED_SHARE, free=_of_benches(at, at.touched))
    dice, turn = Random(1), TURNS.index("all") if len(at.coming) <= SMALL else 0
    while search.has_time() and not search.is_best_possible():
        _take_turn(search, TURNS[turn % len(TURNS)], dice)
        turn += 1
    return search.best


def _take_turn(search: "_Search", kind: str, dice: Random) -> None:
    """One search of the round: ovens kept, everything, or some benches."""
    if kind.startswith("near"):
        free = _of_benches(search.at, _neighbourhood(search.at, search.best, dice))
        free |= _moved_shows(search.at, search.best)
        search.try_one(search.best, ROUND_SHARE, keep=kind == "near, kept", free=free)
    else:
        search.try_one(search.best, ROUND_SHARE, keep=kind == "kept")


def _works(at: Situation, first: Answer) -> dict[str, str]:
    """Old ovens where they still work."""
    out = at.past.out
    return {name: first.ovens[name] if oven in out else oven for name, oven in at.old.ovens.items()}


def _hinted(at: Situation, stand: Answer, first: Answer) -> Answer:
    """Everything as wished but the touched benches, which stand as in a plan that can be cooked."""
    free = _of_benches(at, at.touched)
    starts = {name: first.starts[name] if name in free else minute for name, minute in stand.starts.items()}
    ovens = {name: first.ovens[name] if name in free else oven for name, oven in stand.ovens.items()}
    return Answer(starts, ovens)


def _of_benches(at: Situation, benches: Iterable[str]) -> frozenset[str]:
    """Everything still to come at some benches."""
    wanted = set(benches)
    return frozenset(t.name for t in at.coming if t.bench in wanted)


def _moved_shows(at: Situation, best: Answer) -> frozenset[str]:
    """Demonstrations still to come that are not where they would be."""
    shows = [d.name for d in at.problem.demonstrations if d.name not in at.past.fixed]
    return frozenset(name for name in shows if best.starts[name] != at.wished[name])


def _neighbourhood(at: Situation, best: Answer, dice: Random) -> list[str]:
    """Some benches that moved most, and some others by chance."""
    moved: dict[str, int] = {}
    for task in at.coming:
        bench = task.bench or ""
        moved[bench] = moved.get(bench, 0) + abs(best.starts[task.name] - at.wished[task.name])
    benches = sorted(moved, key=lambda bench: -moved[bench] * dice.uniform(0.3, 1.0))
    others = benches[NEAR:]
    return benches[:NEAR] + dice.sample(others, min(NEAR // 2, len(others)))


@dataclass
class _Search:
    """The best answer so far, and searches that may better it."""

    at: Situation
    left: Callable[[], float]
    workers: int
    best: Answer
    build: float = 0.0
    proved: bool = False

    def has_time(self) -> bool:
        """Whether another model can be built and looked at: on a busy machine building takes long."""
        return self.left() > LEAST_SECONDS + 2 * self.build

    def is_best_possible(self) -> bool:
        """Whether nothing is left to win, as far as the whole model knows."""
        return self.proved or price(self.at, self.best).figure == 0

    def try_one(
        self, first: Answer, share: float, keep: bool = False, free: frozenset[str] | None = None
    ) -> None:
        """One search from an answer, for its share of what is left."""
        if not self.has_time() or (free is not None and not free):
            return
        cp = solver_module()
        assert cp is not None
        before = self.left()
        soft = soft_model(cp, self.at, first, keep_ovens=keep, free=free)
        self.build = max(self.build, before - self.left())
        seconds = max(0.02, self.left() * share)
        solver = cp.CpSolver()
        solver.parameters.num_workers = self.workers
        solver.parameters.random_seed = 1
        solver.parameters.max_time_in_seconds = seconds
        status = solver.solve(soft.built.model)
        self.proved = status == cp.OPTIMAL and free is None and not keep
        if status in (cp.OPTIMAL, cp.FEASIBLE):
            found = soft.answer(solver)
            self.best = _cheapest(self.at, [self.best, found, settled(self.at, found)]) or self.best


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
