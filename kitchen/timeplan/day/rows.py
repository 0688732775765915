"""The lines of the day's pages as plain data: a bench's work, an oven, a step, a button.

For ``page.py`` and ``ovens.py``, which fill them, and for the templates, which show them.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tap:
    """One button: what it sends and what it is called, short and in full."""

    what: str
    words: str
    label: str
    bench: str = ""
    step: int | None = None
    part: int | None = None
    oven: str = ""
    minutes: int = 0

    @property
    def id(self) -> str:
        """The same button has the same name on every rendering, so that focus stays."""
        return f"{self.what}-{self.bench}-{self.step}-{self.part}-{self.oven}".replace(" ", "")


class Counting:
    """What a timer shows: ``minutes`` to go (negative: past) and what they are counted to."""

    minutes: int
    counts: str

    @property
    def counted(self) -> str:
        """ "left", "to start", or "over" and "late" when the minutes are past."""
        if self.minutes >= 0:
            return self.counts
        return "over" if self.counts == "left" else "late"

    @property
    def shown_minutes(self) -> int:
        """Minutes left or over, never negative."""
        return abs(self.minutes)


@dataclass(frozen=True)
class Row(Counting):
    """One line: a bench's work, or food of the same bench in an oven meanwhile (``also``).

    ``ends`` is the minute of the day that the timer counts to (None: no timer); ``counts``
    says what it counts, "left" or "to start".
    """

    name: str
    who: str
    words: str
    state: str
    state_words: str
    ends: int | None = None
    counts: str = "left"
    minutes: int = 0
    next_words: str = ""
    late_by: int = 0
    taps: tuple[Tap, ...] = ()
    also: bool = False

    @property
    def needs_a_hand(self) -> bool:
        """Whether the row is marked."""
        return self.state in ("late", "stopped")


@dataclass(frozen=True)
class OvenRow(Counting):
    """One oven: what is in it, until when, what is next, and the button for its failure."""

    code: str
    name: str
    words: str
    state: str
    state_words: str
    ends: int | None = None
    counts: str = "left"
    minutes: int = 0
    next_words: str = ""
    taps: tuple[Tap, ...] = ()


@dataclass(frozen=True, slots=True)
class StepRow:
    """One part of a step on the bench's own page: where it stands, and its buttons."""

    words: str
    planned: str
    state: str
    state_words: str
    cue: str
    taps: tuple[Tap, ...]
