"""How likely a plan is to come out: the same class run a few thousand times by learners who vary.

For the page beside the time plan, and for whoever asks which reserve helps most. A plan
counts every minute as written; learners are faster or slower, and slower ones hold up an
oven for the next. The rule of the day, in prose:

1. Nobody begins a step before its minute of the plan, nor before what it waits for is done.
2. What is shared (rings, machines, lecturer, assessor, oven trays) is taken in the order of
   the plan; nobody overtakes.
3. An oven changes its heat when the last tray of the heat before is out; trays that must
   bake alone go in together when the last of them is ready.
4. Work of hands takes its planned minutes times the learner's own factor times a factor of
   that piece of work; food in an oven or a chiller takes exactly its minutes.

5. Nobody begins before a break what its planned minutes would carry into it; who is slower
   ends it in the break.

With no spread at all every run is the plan, minute for minute.

Worked example: one oven for one tray, two benches that bake 10 minutes from minutes 5 and
15. When the first is 4 minutes late it goes in at 9 and comes out at 19; the second waits
4 minutes and ends at 29, four minutes after its plan.

All runs are reckoned at once: every quantity is an array with one figure for each run.
The factors are log-normal, so half the learners are slower than the middle one; how wide
they spread is common practice, no source, until the college's own days have taught it: work
that is planned at a learned pace has that for its middle, and the spread of its timings.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import hypot
from typing import Any

import numpy as np

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Bake, Demonstration, Oven, Problem, Task

#: Food that stands so few minutes over what the recipe allows is not counted (common practice, no source).
GRACE_MINUTES = 2
#: Nobody is taken for faster or slower than this (from memory, no source).
LEAST_FACTOR, MOST_FACTOR = 0.4, 4.0


@dataclass(frozen=True, slots=True)
class Pace:
    """How minutes of hands vary: the middle learner, the spread between learners, and between pieces.

    All per mille of the planned minutes; a spread of 200 means that about two thirds of the
    learners lie within a fifth of the middle one.
    """

    middle_per_mille: int = 1000
    learners_per_mille: int = 0
    pieces_per_mille: int = 0


#: Common practice, no source: what a group is like with a dish. Learned figures take their place.
GROUPS = {
    "first": Pace(1150, 220, 180),
    "practised": Pace(1000, 150, 120),
    "quick": Pace(900, 100, 100),
}


@dataclass(frozen=True, slots=True)
class Queue:
    """Waiting at one shared thing: minutes in all benches together in a middling run, share of runs."""

    kind: str
    about: str
    minutes: float
    share_of_runs: float


@dataclass(frozen=True, slots=True)
class HoldBroken:
    """Food of this bench stood longer than it may between two pieces of work, in this share of runs."""

    before: str
    after: str
    share_of_runs: float


@dataclass(frozen=True, slots=True)
class Chance:
    """What came of the runs. Shares are of 1; minutes count from the start of cooking.

    ``benches`` holds (bench, share in time, minute by which nine runs in ten have ended);
    ``finish`` the minute by which one, five and nine runs of ten have ended. ``queues`` and
    ``holds`` stand worst first.
    """

    runs: int
    in_time: float
    benches: tuple[tuple[str, float, int], ...]
    finish: tuple[int, int, int]
    queues: tuple[Queue, ...]
    holds: tuple[HoldBroken, ...]


@dataclass
class _OvenNow:
    """One oven in all runs: what baked last, and from when on its heat is the present one."""

    last: Bake | None = None
    open_from: Any = 0.0


@dataclass
class _Runs:
    """The state of all runs while they are laid out in the order of the plan."""

    problem: Problem
    answer: Answer
    count: int
    minutes: Mapping[str, Any]
    end: dict[str, Any] = field(default_factory=dict)
    begun: dict[str, Any] = field(default_factory=dict)
    free: dict[tuple[str, str], Any] = field(default_factory=dict)
    waited: dict[tuple[str, str], Any] = field(default_factory=dict)
    ovens: dict[str, _OvenNow] = field(default_factory=dict)

    def ready(self, task: Task) -> Any:
        """Its planned minute, or when all that it waits for is done."""
        ready = np.full(self.count, float(self.answer.starts[task.name]))
        for window in self.problem.windows_before[task.name]:
            np.maximum(ready, self.end[window.before] + window.least, out=ready)
        if task.shown_by is not None:
            np.maximum(ready, self.end[task.shown_by], out=ready)
        return ready

    def when_free(self, key: tuple[str, str], units: int, wanted: int) -> Any:
        """The minute from which ``wanted`` of the ``units`` of a shared thing are free together."""
        places = self.free.setdefault(key, np.zeros((self.count, units)))
        places.sort(axis=1)
        return places[:, wanted - 1].copy()

    def wait_for(self, key: tuple[str, str], units: int, wanted: int, ready: Any) -> Any:
        """When it can begin, not before ``ready``; what it waits is noted."""
        return self.note(key, ready, np.maximum(ready, self.when_free(key, units, wanted)))

    def out_of_breaks(self, start: Any, minutes: int) -> Any:
        """When work of so many planned minutes begins that is not begun where a break would come into it."""
        for each in self.problem.breaks:
            meets = (start < each.end) & (start + minutes > each.start)
            start = np.where(meets & (minutes > 0), float(each.end), start)
        return start

    def note(self, key: tuple[str, str], ready: Any, start: Any) -> Any:
        """Note the wait from ``ready`` to ``start`` at a shared thing."""
        self.waited[key] = self.waited.get(key, 0.0) + (start - ready)
        return start

    def take(self, key: tuple[str, str], wanted: int, end: Any) -> None:
        """Take the units that were free first until ``end``."""
        self.free[key].sort(axis=1)
        self.free[key][:, :wanted] = end[:, None]


def run_classes(
    problem: Problem,
    answer: Answer,
    pace: Pace,
    *,
    runs: int = 2000,
    seed: int = 1,
    paces: Mapping[str, Pace] | None = None,
    learned: Mapping[str, int | None] | None = None,
) -> Chance:
    """Run the class ``runs`` times; ``paces`` gives single benches a pace of their own.

    ``learned`` names the tasks whose planned minutes are a learned middle, with the spread of
    their timings per mille (None: too few, the group's spread is taken). The same arguments
    give the same answer. ``answer`` must be a legal plan of ``problem``.
    """
    dice = np.random.default_rng(seed)
    minutes = _minutes(problem, pace, paces or {}, learned or {}, runs, dice)
    state = _Runs(problem, answer, runs, minutes)
    for item in _in_order(problem, answer):
        if isinstance(item, tuple):
            _bake_together(state, item)
        elif isinstance(item, Task):
            _do(state, item)
        else:
            _show(state, item)
    return _chance(state)


def _minutes(
    problem: Problem,
    pace: Pace,
    paces: Mapping[str, Pace],
    learned: Mapping[str, int | None],
    runs: int,
    dice: Any,
) -> dict[str, Any]:
    """Minutes of every piece of work in every run; food alone always takes what is written."""
    own = {bench.name: dice.normal(0.0, 1.0, runs) for bench in problem.benches}
    out: dict[str, Any] = {show.name: float(show.minutes) for show in problem.demonstrations}
    for task in problem.tasks:
        if not task.hands or task.bench is None:
            out[task.name] = float(task.minutes)
            continue
        this = paces.get(task.bench, pace)
        if task.name in learned:
            this = learned_pace(this, learned[task.name])
        of_learner = np.exp(own[task.bench] * this.learners_per_mille / 1000)
        of_piece = np.exp(dice.normal(0.0, 1.0, runs) * this.pieces_per_mille / 1000)
        factor = of_learner * of_piece * this.middle_per_mille / 1000
        out[task.name] = task.minutes * np.clip(factor, LEAST_FACTOR, MOST_FACTOR)
    return out


def learned_pace(group: Pace, spread_per_mille: int | None) -> Pace:
    """How work at a learned pace varies: its middle is the plan's, its spread that of the timings.

    Timings do not say what is the learner and what the piece of work; the spread is parted as
    the group's is. None: the group's spread.

    Worked example: a group spreads 150 between learners and 120 between pieces, together
    sqrt(150² + 120²) = 192. Timings that spread 384 give 300 and 240.
    """
    if spread_per_mille is None:
        return Pace(1000, group.learners_per_mille, group.pieces_per_mille)
    whole = hypot(group.learners_per_mille, group.pieces_per_mille)
    if not whole:
        return Pace(1000, 0, spread_per_mille)
    share = spread_per_mille / whole
    return Pace(1000, round(group.learners_per_mille * share), round(group.pieces_per_mille * share))


def _in_order(problem: Problem, answer: Answer) -> Iterator[Any]:
    """Demonstrations, tasks, and (as tuples) trays that bake as one, by their start in the plan."""
    place = {name: i for i, name in enumerate(problem.order)}
    alone = _one_bake(problem, answer)
    joined = {task.name for group in alone for task in group}
    keyed: list[tuple[tuple[int, int, int], Any]] = [
        ((answer.starts[show.name], 0, i), show) for i, show in enumerate(problem.demonstrations)
    ]
    keyed += [((answer.starts[n], 1, place[n]), problem.task[n]) for n in problem.order if n not in joined]
    for group in alone:
        keyed.append(((answer.starts[group[0].name], 1, max(place[t.name] for t in group)), group))
    return (item for _, item in sorted(keyed, key=lambda pair: pair[0]))


def _one_bake(problem: Problem, answer: Answer) -> list[tuple[Task, ...]]:
    """Trays of one oven and one start of which one must be alone: they go in and come out together."""
    begun: dict[tuple[str, int], list[Task]] = {}
    for task in problem.tasks:
        if task.bake is not None:
            begun.setdefault((answer.ovens[task.name], answer.starts[task.name]), []).append(task)
    return [tuple(tasks) for tasks in begun.values() if any(task.bake.alone for task in tasks)]


def _do(state: _Runs, task: Task) -> None:
    keys = list(_shared(state.problem, task)) if task.minutes else []
    start = state.ready(task)
    for key, units, wanted in keys:
        start = state.wait_for(key, units, wanted, start)
    if task.bake is not None:
        oven = _oven_of(state, task)
        opened = _at_its_heat(state, oven, task.bake, start)
        key = ("oven", oven.name)
        start = state.note(key, start, np.maximum(opened, state.when_free(key, oven.trays, task.bake.trays)))
    if task.by_people:
        start = state.out_of_breaks(start, task.minutes)
    state.begun[task.name], state.end[task.name] = start, start + state.minutes[task.name]
    for key, _, wanted in keys:
        state.take(key, wanted, state.end[task.name])
    if task.bake is not None:
        state.take(("oven", oven.name), task.bake.trays, state.end[task.name])


def _bake_together(state: _Runs, tasks: tuple[Task, ...]) -> None:
    """Trays that bake with the door shut go in when the last of them is ready."""
    oven = _oven_of(state, tasks[0])
    bake = next(task.bake for task in tasks if task.bake.alone)
    ready = [state.ready(task) for task in tasks]
    start = _at_its_heat(state, oven, bake, np.maximum.reduce(ready))
    for task, own in zip(tasks, ready, strict=True):
        state.note(("oven", oven.name), own, start)
        state.begun[task.name], state.end[task.name] = start, start + state.minutes[task.name]
        state.take(("oven", oven.name), task.bake.trays, state.end[task.name])


def _oven_of(state: _Runs, task: Task) -> Oven:
    return next(oven for oven in state.problem.ovens if oven.name == state.answer.ovens[task.name])


def _at_its_heat(state: _Runs, oven: Oven, bake: Bake, ready: Any) -> Any:
    """When the oven is at the heat of this bake: at once when it is, else when the last tray is out."""
    now = state.ovens.setdefault(oven.name, _OvenNow())
    empty = state.when_free(("oven", oven.name), oven.trays, oven.trays)
    if now.last is None:
        now.open_from = np.full(state.count, float(oven.heat_up_minutes(bake)))
    elif not _same_heat(now.last, bake):
        now.open_from = empty + oven.between_minutes(now.last, bake)
    now.last = bake
    return np.maximum(ready, now.open_from)


def _same_heat(one: Bake, other: Bake) -> bool:
    return not one.alone and not other.alone and (one.begins_at, one.heat) == (other.begins_at, other.heat)


def _shared(problem: Problem, task: Task) -> Iterator[tuple[tuple[str, str], int, int]]:
    """(what, units there, units wanted) of everything but ovens."""
    if task.hands and task.bench is not None:
        yield ("hands", task.bench), problem.bench[task.bench].cooks, 1
    if task.lecturer:
        yield ("lecturer", ""), 1, 1
    if task.assessor:
        yield ("assessor", ""), 1, 1
    there = {supply.name: supply.units for supply in problem.supplies}
    for name, wanted in task.uses:
        yield ("supply", name), there[name], wanted


def _show(state: _Runs, show: Demonstration) -> None:
    """Everybody watches: it begins when every cook and the lecturer are free."""
    keys = [(("hands", b.name), b.cooks, b.cooks) for b in state.problem.benches]
    keys.append((("lecturer", ""), 1, 1))
    planned = np.full(state.count, float(state.answer.starts[show.name]))
    free = [state.when_free(key, units, wanted) for key, units, wanted in keys]
    start = state.note(("demonstration", show.name), planned, np.maximum.reduce([planned, *free]))
    start = state.out_of_breaks(start, show.minutes)
    state.end[show.name] = start + state.minutes[show.name]
    for key, _, wanted in keys:
        state.take(key, wanted, state.end[show.name])


def _chance(state: _Runs) -> Chance:
    problem = state.problem
    usable = problem.usable_minutes if problem.usable_minutes is not None else np.inf
    ends = {
        bench.name: np.maximum.reduce([state.end[t.name] for t in problem.tasks if t.bench == bench.name])
        for bench in problem.benches
        if any(t.bench == bench.name for t in problem.tasks)
    }
    last = np.maximum.reduce(list(state.end.values()))
    return Chance(
        runs=state.count,
        in_time=_share(last <= usable + _ROUNDING),
        benches=tuple(
            (name, _share(end <= usable + _ROUNDING), _minute(end, 90)) for name, end in ends.items()
        ),
        finish=(_minute(last, 10), _minute(last, 50), _minute(last, 90)),
        queues=tuple(sorted(_queues(state), key=lambda queue: (-queue.minutes, queue.about))),
        holds=tuple(sorted(_holds_broken(state), key=lambda hold: (-hold.share_of_runs, hold.before))),
    )


#: Sums of many fractions may end a hair over a whole minute.
_ROUNDING = 1e-6


def _share(true: Any) -> float:
    return float(np.mean(true))


def _minute(values: Any, percent: int) -> int:
    """The whole minute by which so many runs in a hundred have ended."""
    return int(np.ceil(np.percentile(values, percent) - _ROUNDING))


def _queues(state: _Runs) -> Iterator[Queue]:
    for (kind, about), waited in state.waited.items():
        if kind != "hands" and np.any(waited > _ROUNDING):
            yield Queue(kind, about, float(np.median(waited)), _share(waited >= 1))


def _holds_broken(state: _Runs) -> Iterator[HoldBroken]:
    for window in state.problem.windows:
        if window.longest is None:
            continue
        stood = state.begun[window.after] - state.end[window.before]
        share = _share(stood > window.longest + GRACE_MINUTES)
        if share:
            yield HoldBroken(window.before, window.after, share)
