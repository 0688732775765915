"""A learner's order of work in the trade's three columns, for the page and the paper alike.

Lines with a time come by the clock, those without one behind them in the order of the recipe.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from curriculum.wording import clock_minutes
from kitchen.timeplan.own_order.written import CleanLine, StepLine, WrittenOrder, read_or_none


@dataclass(frozen=True, slots=True)
class StepFacts:
    """One step as its learner is asked about it: what it says, minutes of hands, where its food stays."""

    step: int
    words: str
    hands_minutes: int
    stays: tuple[str, ...] = ()
    wait_first: bool = False

    @property
    def head(self) -> str:
        """ "Step 3", "Plate to the pass"."""
        return f"Step {self.step}" if self.step else "Plate to the pass"

    @property
    def meta(self) -> str:
        """Minutes of hands and where the food stays, in the order in which they happen."""
        hands = (f"{self.hands_minutes} min of hands",) if self.hands_minutes else ()
        return ", then ".join((*self.stays, *hands) if self.wait_first else (*hands, *self.stays))

    @property
    def begins_with(self) -> str:
        """What its time is of, where it begins with a wait."""
        return "Its time is when the wait begins." if self.wait_first and self.stays else ""


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line: time as written (empty: none), head, task, special points, and the plan's own time."""

    at: str
    head: str
    task: str
    points: tuple[str, ...] = ()
    plan_at: str = ""
    breaks: bool = False


@dataclass(frozen=True, slots=True)
class OrderSheet:
    """The whole order."""

    lines: tuple[OrderLine, ...]
    contingency: str


def sheet_of(
    order: WrittenOrder,
    steps: Iterable[StepFacts],
    plan_at: Mapping[int, int] | None = None,
    broken: Iterable[int] = (),
) -> OrderSheet:
    """The order in three columns; ``plan_at`` (minutes of the day by step) stands beside where given."""
    plan_at, broken = plan_at or {}, set(broken)
    timed = [
        (read_or_none(line.at), _step(line, facts, plan_at, broken))
        for facts in steps
        for line in (order.line(facts.step),)
    ]
    timed += [(read_or_none(clean.at), _clean(clean)) for clean in order.cleaning if not clean.is_empty]
    by_clock = sorted(timed, key=lambda each: (each[0] is None, each[0] or 0))
    return OrderSheet(tuple(line for _, line in by_clock), order.contingency.strip())


def _step(line: StepLine, facts: StepFacts, plan_at: Mapping[int, int], broken: set[int]) -> OrderLine:
    minute = plan_at.get(line.step)
    return OrderLine(
        at=_clock(line.at),
        head=facts.head,
        task=line.task.strip() or facts.words,
        points=tuple(_points(line)),
        plan_at=clock_minutes(minute) if minute is not None else "",
        breaks=line.step in broken,
    )


def _points(line: StepLine) -> Iterator[str]:
    if line.points.strip():
        yield line.points.strip()
    if line.meanwhile.strip():
        yield f"Meanwhile: {line.meanwhile.strip()}"


def _clean(clean: CleanLine) -> OrderLine:
    minutes = clean.minutes.strip()
    return OrderLine(
        at=_clock(clean.at),
        head="Cleaning",
        task=clean.task.strip() or "Clean as you go.",
        points=(f"{minutes} min" if minutes.isdecimal() else minutes,) if minutes else (),
    )


def _clock(words: str) -> str:
    """The time as a clock shows it; what cannot be read stays as it was written."""
    minute = read_or_none(words)
    return words.strip() if minute is None else clock_minutes(minute)
