"""The day beside its plan: real minutes of each step, how late each bench ended, what it teaches.

For the page after the lesson. Only what was tapped counts: a time that was assumed because
nobody tapped it is left out, and how many were is said. The median is the middle of the real
minutes (of an even number the lower middle, so that it is one that happened).

Worked example: step 3 is planned at 10 min; five benches took 9, 12, 12, 14 and 15: median
12, so 1,200 per mille of the plan, from five. A technique's pace is the median of such
shares over all its timed steps; shares are of the recipe's minutes, also where the plan counts
by a pace that was learned before.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from curriculum.wording import clock_minutes, counted_words
from kitchen.timeplan.day.live import Live
from kitchen.timeplan.day.told import Told, place_of, short_words
from kitchen.timeplan.paces import ENOUGH_TIMINGS, times_words
from kitchen.timeplan.problem import Task

#: A timing under or over so many times the plan's minutes is no timing (our own choice, no source).
LEAST_SHARE, MOST_SHARE = 0.2, 5.0


@dataclass(frozen=True, slots=True)
class Timed:
    """One part of a step at one bench: planned and real minutes, and how late it began.

    ``written`` are the recipe's minutes with the bench's extra time, where a learned pace
    changed them in the plan; None: as planned.
    """

    bench: str
    step: int
    planned: int
    real: int
    late: int
    written: int | None = None

    @property
    def per_mille(self) -> int:
        """Real over the recipe's minutes."""
        return self.real * 1000 // (self.written or self.planned)


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step over all benches that were timed at it."""

    step: int
    words: str
    planned: int
    median: int
    least: int
    most: int
    count: int

    @property
    def difference(self) -> str:
        """ "2 min more", "1 min less", "as planned"."""
        if self.median == self.planned:
            return "as planned"
        return f"{abs(self.median - self.planned)} min {'more' if self.median > self.planned else 'less'}"


@dataclass(frozen=True, slots=True)
class BenchLine:
    """One bench: when it was to end and ended, in words; how many parts were timed."""

    name: str
    planned: str
    real: str
    difference: str
    count: int


@dataclass(frozen=True, slots=True)
class Pace:
    """What the day teaches about one technique at one level: its timings, per mille of the recipe."""

    technique: str
    level: str
    timings: tuple[int, ...]

    @property
    def per_mille(self) -> int:
        """The median of the timings."""
        return max(1, median(self.timings))

    @property
    def count(self) -> int:
        """How many steps were timed."""
        return len(self.timings)

    @property
    def is_thin(self) -> bool:
        """Whether it rests on few timed steps."""
        return self.count < ENOUGH_TIMINGS

    @property
    def words(self) -> str:
        """ "12 min where the recipe says 10, from eight timed steps"."""
        minutes = self.per_mille * 10 // 1000
        thin = " That is thin evidence." if self.is_thin else ""
        steps = counted_words(self.count, "timed step")
        return f"{minutes} min where the recipe says 10 min, from {steps}.{thin}"


def kept_words(per_mille: int, count: int, lessons: int) -> str:
    """What stands for a technique, of all the days that were kept together."""
    of = f"{counted_words(count, 'timing')} in {counted_words(lessons, 'lesson')}"
    return f"Kept at this level: {times_words(per_mille)} the recipe’s minutes, from {of}."


def median(values: Iterable[int]) -> int:
    """The middle value; of an even number the lower one. ValueError when there is none."""
    in_order = sorted(values)
    if not in_order:
        raise ValueError("there is no median of nothing")
    return in_order[(len(in_order) - 1) // 2]


def timed(
    state: Live, first: Mapping[str, int], written: Mapping[str, int] | None = None
) -> tuple[Timed, ...]:
    """What was really timed: hands, begun and ended with a tap. ``first`` are the first plan's starts.

    ``written`` are the recipe's minutes of tasks that are planned at a learned pace.
    """
    return tuple(
        Timed(
            task.bench or "",
            place_of(task)[0],
            task.minutes,
            _worked(state, task.name),
            state.begun[task.name] - first.get(task.name, state.begun[task.name]),
            (written or {}).get(task.name),
        )
        for task in state.problem.tasks
        if _is_timed(state, task)
    )


def _worked(state: Live, name: str) -> int:
    """Minutes between its taps without those of breaks."""
    begun, ended = state.begun[name], state.ended[name]
    rests = (max(0, min(ended, each.end) - max(begun, each.start)) for each in state.problem.breaks)
    return ended - begun - sum(rests)


def _is_timed(state: Live, task: Task) -> bool:
    """Begun and ended with taps that can be meant: no slip of the finger, no tap that was forgotten."""
    tapped = task.name in state.ended and task.name not in state.assumed
    if not (tapped and task.hands and task.minutes > 0 and bool(task.step)):
        return False
    return LEAST_SHARE <= _worked(state, task.name) / task.minutes <= MOST_SHARE


def untimed(state: Live) -> int:
    """How many pieces of work have no real minutes: not tapped, or not both begun and ended."""
    hands = [t for t in state.problem.tasks if t.hands and t.step and t.bench not in state.gone]
    return sum(not _is_timed(state, task) for task in hands)


def step_lines(told: Told, found: Iterable[Timed]) -> tuple[StepLine, ...]:
    """Planned against real by step, in the recipe's order."""
    by_step: dict[int, list[Timed]] = {}
    for each in found:
        by_step.setdefault(each.step, []).append(each)
    words = {line.step: line.words for bench in told.plan.benches for line in bench.lines}
    return tuple(
        StepLine(
            step,
            short_words(words.get(step, "")),
            median(each.planned for each in all_of),
            median(each.real for each in all_of),
            min(each.real for each in all_of),
            max(each.real for each in all_of),
            len(all_of),
        )
        for step, all_of in sorted(by_step.items())
    )


def bench_lines(told: Told, first: Mapping[str, int], found: Iterable[Timed]) -> tuple[BenchLine, ...]:
    """When each bench was to end and did."""
    counts: dict[str, int] = {}
    for each in found:
        counts[each.bench] = counts.get(each.bench, 0) + 1
    names = [bench.name for bench in told.plan.benches]
    return tuple(_bench_line(told, first, name, counts.get(name, 0)) for name in names)


def _bench_line(told: Told, first: Mapping[str, int], bench: str, count: int) -> BenchLine:
    tasks = [t for t in told.state.problem.tasks if t.bench == bench]
    planned = max(first.get(t.name, 0) + t.minutes for t in tasks)
    to_end = clock_minutes(told.at(planned))
    if bench in told.state.gone:
        return BenchLine(bench, to_end, "", "nobody was there", count)
    if any(t.name not in told.state.ended for t in tasks):
        return BenchLine(bench, to_end, "", "not ended with a tap", count)
    real = max(told.state.ended[t.name] for t in tasks)
    late = real - planned
    words = "as planned" if not late else f"{abs(late)} min {'later' if late > 0 else 'earlier'}"
    return BenchLine(bench, to_end, clock_minutes(told.at(real)), words, count)


def paces_of(found: Iterable[Timed], techniques: Mapping[int, Iterable[str]], level: str) -> tuple[Pace, ...]:
    """Pace by technique at the recipe's level; a step with several techniques teaches each."""
    shares: dict[str, list[int]] = {}
    for each in found:
        for technique in techniques.get(each.step, ()):
            shares.setdefault(technique, []).append(each.per_mille)
    return tuple(Pace(technique, level, tuple(values)) for technique, values in sorted(shares.items()))
