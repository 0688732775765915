"""What a learner wrote: a time for each step, what fills the waits, cleaning, and what if.

For the pages, the paper and the check. Times are kept as they were typed, so that one that
cannot be read comes back to the one who wrote it. Step 0 is the plate at the pass.
"""

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

from curriculum.look.reading import clock_from, whole_number_from

SHAPE = 1
#: Longest cleaning that can be written on one line, in minutes. Common practice, no source.
MOST_CLEANING_MINUTES = 60


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step in the three columns (``at``, ``task``, ``points``) and what is done while its food stays."""

    step: int
    at: str = ""
    task: str = ""
    points: str = ""
    meanwhile: str = ""


@dataclass(frozen=True, slots=True)
class CleanLine:
    """One piece of cleaning as they go: when, for how many minutes, what; all as typed."""

    at: str = ""
    minutes: str = ""
    task: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether nothing was written on this line."""
        return not (self.at or self.minutes or self.task)


@dataclass(frozen=True, slots=True)
class WrittenOrder:
    """A whole order of work as it was written."""

    steps: tuple[StepLine, ...] = ()
    cleaning: tuple[CleanLine, ...] = ()
    contingency: str = ""

    def line(self, step: int) -> StepLine:
        """What was written for a step; an empty line when nothing was."""
        return next((line for line in self.steps if line.step == step), StepLine(step))


@dataclass(frozen=True, slots=True)
class Trouble:
    """Something typed that cannot be read, or lies outside the lesson: the field and a sentence."""

    field: str
    words: str

    @property
    def about(self) -> str:
        """What it is about: "Step 6", "Cleaning 2"."""
        kind, _, number = self.field.rpartition("_")
        if kind != "at":
            return f"Cleaning {number}"
        return f"Step {number}" if int(number) else "Plate to the pass"


def kept_order(order: WrittenOrder) -> dict[str, Any]:
    """The order as JSON."""
    return {
        "shape": SHAPE,
        "steps": [asdict(line) for line in order.steps],
        "cleaning": [asdict(line) for line in order.cleaning],
        "contingency": order.contingency,
    }


def read_order(kept: dict[str, Any]) -> WrittenOrder:
    """The order from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") != SHAPE:
        raise ValueError(f"an order of work of shape {kept.get('shape')} is not known")
    return WrittenOrder(
        steps=tuple(StepLine(**line) for line in kept["steps"]),
        cleaning=tuple(CleanLine(**line) for line in kept["cleaning"]),
        contingency=kept["contingency"],
    )


def minute_from(words: str) -> int:
    """Minute of the day behind "09:20". ValueError says what was typed and what to write."""
    at = clock_from(words)
    return at.hour * 60 + at.minute


def minutes_from(words: str) -> int:
    """Minutes of a piece of cleaning. ValueError says what was typed and what to write."""
    return whole_number_from(words, least=1, most=MOST_CLEANING_MINUTES, such_as=5)


def unreadable(order: WrittenOrder) -> Iterator[Trouble]:
    """What cannot be read, at its field; an empty time is none of it."""
    for line in order.steps:
        yield from _told(f"at_{line.step}", line.at, minute_from)
    for number, clean in enumerate(order.cleaning, 1):
        yield from _told(f"clean_at_{number}", clean.at, minute_from)
        yield from _told(f"clean_minutes_{number}", clean.minutes, minutes_from)


def _told(field: str, words: str, reader: Any) -> Iterator[Trouble]:
    if not words.strip():
        return
    try:
        reader(words)
    except ValueError as error:
        yield Trouble(field, str(error))


def read_or_none(words: str, reader: Any = minute_from) -> int | None:
    """What was typed as a number, None where it is empty or cannot be read."""
    try:
        return reader(words) if words.strip() else None
    except ValueError:
        return None
