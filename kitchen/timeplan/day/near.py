"""The re-plan bettered piece by piece: a few things may move, all others stand, again and again.

For ``solver.py`` in this folder only, which gives the solver's module. One model is built for all
that is to come. A piece is searched by giving everything else the one minute and the one oven at
which it stands; that takes milliseconds, where building a model of the piece takes tenths of a
second on a large class. Pieces grow when they are searched to the end and shrink when they are not.

Pieces, in turn:

- **from the wish**: the touched benches and some of their neighbours are free and all others
  stand as they wish, so what one disturbance moves stays among few;
- benches that moved most, among them by chance;
- a bench that moved, with those that share its ovens;
- what stands about a minute at which something moved.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from random import Random
from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.situation import Situation, price
from kitchen.timeplan.day.soft import Soft, hint_with, soft_model
from kitchen.timeplan.model import phases_of
from kitchen.timeplan.problem import Task

#: Things of a piece at first, at least, and at most. Our own choice, no source.
FIRST_SIZE, LEAST_SIZE, MOST_SIZE = 30, 8, 200
#: A piece that was searched to its end makes the next larger, one that was not makes it smaller; how much
#: is our own choice, no source.
GROWS, SHRINKS = 1.7, 0.6
#: Work of one piece at most in the solver's own measure, about a tenth of a second on a quiet machine:
#: by the clock a busy machine would search no piece to its end. Nor more than a share of what is left.
WORK, SHARE = 0.007, 0.4


def quick_solver(cp: ModuleType, seconds: float, seed: int) -> Any:
    """One worker that wastes no time before it looks."""
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.symmetry_level = 0
    solver.parameters.max_time_in_seconds = max(0.01, seconds)
    return solver


@dataclass
class Near:
    """The best answer so far, the model of all that is to come, and the pieces searched."""

    cp: ModuleType
    at: Situation
    best: Answer
    left: Callable[[], float]
    size: float = FIRST_SIZE
    pieces: int = 0
    around: int = 0
    from_wish: bool = True
    seed: int = 1
    soft: Soft | None = None

    def __post_init__(self) -> None:
        self.dice = Random(self.seed)
        self.figure = price(self.at, self.best).figure
        self.benches: dict[str, list[Task]] = {}
        for task in self.at.coming:
            self.benches.setdefault(task.bench or "", []).append(task)
        self._build(self.soft)

    def twin(self) -> "Near":
        """Another search of the same question with a model and a dice of its own, for the other core."""
        built = replace(self.soft.built, model=self.soft.built.model.clone())
        return replace(self, seed=self.seed + 1, soft=replace(self.soft, built=built))

    def model_of_all(self) -> Any:
        """A copy of the model in which everything may move, to begin with the best answer."""
        self._fix(self.best, set(self.soft.built.start))
        return self.soft.built.model.clone()

    def _build(self, soft: Soft | None = None) -> None:
        self.soft = soft or soft_model(self.cp, self.at, self.best)
        self.variables = self.soft.built.model.proto.variables
        starts = self.soft.built.start.values()
        self.whole = {v.index: tuple(self.variables[v.index].domain) for v in starts}

    def take(self, answer: Answer) -> bool:
        """Keep an answer that is cheaper and can be cooked."""
        figure = price(self.at, answer).figure
        if figure >= self.figure or hard(check_from(self.at.problem, answer, self.at.past)):
            return False
        self.best, self.figure = answer, figure
        return True

    def search_one(self) -> None:
        """One piece."""
        self.pieces += 1
        if self.at.touched and self.from_wish and self.pieces % 4 == 1:
            self._from_the_wish()
            return
        piece = (self._moved_benches, self._shared_ovens, self._about_a_minute)[self.pieces % 3]()
        if not self._fix(self.best, piece):
            self._build()
            self._fix(self.best, piece)
        done = self._solve(self.best)
        self.size = min(MOST_SIZE, self.size * GROWS) if done else max(LEAST_SIZE, self.size * SHRINKS)

    def _from_the_wish(self) -> None:
        """The touched benches and some that share their ovens; all others stand as they wish."""
        benches = list(self.at.touched & self.benches.keys())
        benches += self._neighbours(benches)[: self.around]
        piece = {task.name for bench in sorted(benches) for task in self.benches[bench]}
        piece |= {show for show in self._shows() if self.best.starts[show] != self.at.wished[show]}
        starts = {**self.best.starts, **{n: m for n, m in self.at.wished.items() if n not in piece}}
        ovens = {
            name: self.best.ovens[name] if name in piece or oven in self.at.past.out else oven
            for name, oven in self.at.old.ovens.items()
        }
        stand = Answer(starts, ovens)
        self._fix(stand, piece, phases=False)
        self.from_wish = self._solve(stand)
        self.around += 1 + self.around // 2

    def _neighbours(self, benches: list[str]) -> list[str]:
        """Other benches: those first that share most ovens; by chance where they are equal."""
        ovens = self._ovens_of(benches)
        others = [bench for bench in self.benches if bench not in benches]
        self.dice.shuffle(others)
        return sorted(others, key=lambda bench: -len(ovens & self._ovens_of([bench])))

    def _ovens_of(self, benches: Iterable[str]) -> set[str]:
        return {self.best.ovens[t.name] for bench in benches for t in self.benches[bench] if t.bake}

    def _by_moves(self) -> list[str]:
        moved = {
            bench: 1 + sum(abs(self.best.starts[t.name] - self.at.wished[t.name]) for t in tasks)
            for bench, tasks in self.benches.items()
        }
        return sorted(moved, key=lambda bench: -moved[bench] * self.dice.uniform(0.1, 1.0))

    def _moved_benches(self) -> set[str]:
        return self._filled(self._by_moves())

    def _shared_ovens(self) -> set[str]:
        first = self._by_moves()[:1]
        return self._filled(first + self._neighbours(first))

    def _about_a_minute(self) -> set[str]:
        coming = self.at.coming
        moved = [t for t in coming if self.best.starts[t.name] != self.at.wished[t.name]] or coming
        minute = self.best.starts[self.dice.choice(moved).name]
        near = sorted(coming, key=lambda t: abs(self.best.starts[t.name] - minute))
        return {t.name for t in near[: int(self.size)]} | self._some_shows()

    def _filled(self, benches: list[str]) -> set[str]:
        """All of the first benches until the piece is full, and demonstrations."""
        piece: set[str] = set()
        for bench in benches:
            if piece and len(piece) + len(self.benches[bench]) > self.size:
                break
            piece |= {t.name for t in self.benches[bench]}
        return piece | self._some_shows()

    def _shows(self) -> list[str]:
        return [d.name for d in self.at.problem.demonstrations if d.name not in self.at.past.fixed]

    def _some_shows(self) -> set[str]:
        """Those that are not where they would be, and now and then another."""
        best, wished = self.best.starts, self.at.wished
        return {show for show in self._shows() if best[show] != wished[show] or self.dice.random() < 0.1}

    def _fix(self, stand: Answer, piece: set[str], *, phases: bool = True) -> bool:
        """Give all but the piece its one minute and oven; False when the model has too few phases."""
        built, now = self.soft.built, self.at.now
        for name, variable in built.start.items():
            minute = stand.starts[name] - now
            self._within(variable, self.whole[variable.index] if name in piece else (minute, minute))
        where = self._phase_of(stand) if phases else {}
        if where is None:
            return False
        for name, picks in built.chosen.items():
            for oven, number, x in picks:
                stands = (oven, number) == where.get(name) if phases else oven == stand.ovens[name]
                may = name in piece or stands
                must = name not in piece and stands and phases
                self._within(x, (int(must), int(may)))
        hint_with(self.soft, stand)
        return True

    def _phase_of(self, stand: Answer) -> dict[str, tuple[str, int]] | None:
        """The phase of each bake that is to come; None when the model has too few phases."""
        built = self.soft.built
        where: dict[str, tuple[str, int]] = {}
        for oven, phases in phases_of(built.problem, stand).items():
            for number, phase in enumerate(phases):
                if (oven, number) not in built.phase:
                    return None
                where.update(dict.fromkeys(phase.bakes, (oven, number)))
        return where

    def _within(self, variable: Any, domain: tuple[int, ...]) -> None:
        held = self.variables[variable.index].domain
        held.clear()
        held.extend(domain)

    def _solve(self, stand: Answer) -> bool:
        """Search the piece; whether it was searched to the end."""
        solver = quick_solver(self.cp, self.left() * SHARE, self.seed * 1000 + self.pieces)
        solver.parameters.max_deterministic_time = WORK
        status = solver.solve(self.soft.built.model)
        if status in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            self.take(self.soft.answer(solver))
        return status in (self.cp.OPTIMAL, self.cp.INFEASIBLE)
