"""How busy the room is by the minute: hands, bakes in the ovens, the lecturer.

For the picture on the wall and the table beside the plan's own picture. Minutes are those of
the day.

Worked example: two benches with one cook each; bench 1 rubs in from 09:15 to 09:25, bench 2
from 09:20 to 09:30. Hands: one from 09:15, two from 09:20, one from 09:25, none from 09:30.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.wording import clock_minutes
from kitchen.timeplan.plan import LessonPlan

#: Minutes of one row of the table. Our own choice, no source.
QUARTER = 15


@dataclass(frozen=True, slots=True)
class Run:
    """So many at once from one minute to another."""

    start: int
    end: int
    count: int


@dataclass(frozen=True, slots=True)
class Held:
    """What holds the lecturer: a demonstration ("D4") or one bench, stood beside ("2")."""

    start: int
    end: int
    words: str
    shows: bool


@dataclass(frozen=True, slots=True)
class LoadRow:
    """A quarter of an hour: the most hands and bakes at once, what the lecturer does."""

    at: str
    hands: int
    bakes: int
    lecturer: str


def hands_by_minute(plan: LessonPlan) -> tuple[Run, ...]:
    """Pieces of work under way at once."""
    return _runs(plan, ((b.start, b.end) for bench in plan.benches for b in bench.bars if b.kind == "hands"))


def bakes_by_minute(plan: LessonPlan) -> tuple[Run, ...]:
    """Bakes in the ovens at once: one of each bench that bakes."""
    return _runs(plan, ((b.start, b.end) for bench in plan.benches for b in bench.bars if b.kind == "oven"))


def _runs(plan: LessonPlan, spans: Iterable[tuple[int, int]]) -> tuple[Run, ...]:
    change: dict[int, int] = {plan.starts: 0, max(plan.ends, plan.finish_at): 0}
    for start, end in spans:
        change[start] = change.get(start, 0) + 1
        change[end] = change.get(end, 0) - 1
    runs: list[Run] = []
    count, minutes = 0, sorted(change)
    for start, end in zip(minutes, minutes[1:], strict=False):
        count += change[start]
        if runs and runs[-1].count == count:
            runs[-1] = Run(runs[-1].start, end, count)
        else:
            runs.append(Run(start, end, count))
    return tuple(runs)


def lecturer_by_minute(plan: LessonPlan) -> tuple[Held, ...]:
    """Demonstrations, and hands beside which somebody stands, by the clock."""
    held = [Held(show.start, show.start + show.minutes, f"D{show.step}", True) for show in plan.shows]
    for bench in plan.benches:
        beside = {line.step for line in bench.lines if line.beside}
        bars = (bar for bar in bench.bars if bar.kind == "hands" and bar.step in beside)
        held += [Held(bar.start, bar.end, bench.name, False) for bar in bars]
    return tuple(sorted(held, key=lambda each: (each.start, each.end, each.words)))


def load_table(plan: LessonPlan) -> tuple[LoadRow, ...]:
    """The load in words, a row for each quarter of an hour."""
    hands, bakes, held = hands_by_minute(plan), bakes_by_minute(plan), lecturer_by_minute(plan)
    rows = []
    for start in range(plan.starts, max(plan.ends, plan.finish_at), QUARTER):
        end = start + QUARTER
        doing = dict.fromkeys(_held_words(each) for each in held if each.start < end and each.end > start)
        most = _most(hands, start, end), _most(bakes, start, end)
        rows.append(LoadRow(clock_minutes(start), *most, ", ".join(doing)))
    return tuple(rows)


def _held_words(held: Held) -> str:
    return f"demonstration of step {held.words[1:]}" if held.shows else f"beside bench {held.words}"


def _most(runs: tuple[Run, ...], start: int, end: int) -> int:
    return max((run.count for run in runs if run.start < end and run.end > start), default=0)
