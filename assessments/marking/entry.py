"""What an entry may be, which one counts, and when two devices wrote over each other.

A mark is never changed: a later entry of the same slot stands over the earlier one, an
undo is one more entry with the value before. Values are kept as whole thousandths of the
slot's unit: step 2 is 2000, 133 g are 133000, presented 187 minutes after the start 187000.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from fractions import Fraction

from assessments.marking.slots import CLOCK, MET, RULER, RUNGS, STOP, Slot
from assessments.schemes.card import Mark
from assessments.schemes.figures import half_up, plain
from curriculum.errors import RuleBroken

FIGURE = re.compile(r"^[-+\N{MINUS SIGN}]?\d{1,7}(?:[.,]\d{1,3})?$")
CLOCK_TIME = re.compile(r"^(\d{1,2})[:.](\d{2})(?:[:.](\d{2}))?$")
SUCH_AS = {"g": "133", "°C": "47.5", "pieces": "8"}
LONGEST_QUOTE = 40
#: Controls whose value is a whole step.
STEPWISE = (RUNGS, RULER, MET, STOP)


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a slot's chain. ``milli`` None is withdrawn, or only faults were seen yet."""

    criterion: str
    subject: str
    number: int
    milli: int | None
    faults: tuple[str, ...] = ()
    based_on: int = 0
    by: str = ""
    at: datetime | None = None

    @property
    def place(self) -> str:
        """The slot it belongs to."""
        return f"{self.criterion}.{self.subject}" if self.subject else self.criterion

    @property
    def conflicts(self) -> bool:
        """Whether the device that wrote it had not seen the entry before it."""
        return self.based_on != self.number - 1


def current(entries: Iterable[Entry]) -> dict[str, Entry]:
    """The entry that counts for each slot: the last of its chain."""
    found: dict[str, Entry] = {}
    for entry in entries:
        known = found.get(entry.place)
        if known is None or entry.number > known.number:
            found[entry.place] = entry
    return found


def before(entries: Iterable[Entry], place: str) -> tuple[Entry | None, Entry | None]:
    """The last entry of a slot and the one before it."""
    chain = sorted((each for each in entries if each.place == place), key=lambda each: each.number)
    return (chain[-1] if chain else None, chain[-2] if len(chain) > 1 else None)


def conflicts(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries now standing that were written without sight of the one before them."""
    return tuple(entry for entry in current(entries).values() if entry.conflicts)


def marks_of(entries: Iterable[Entry], judge: int = 1) -> tuple[Mark, ...]:
    """The marks that count, as the arithmetic reads them."""
    return tuple(
        Mark(entry.criterion, Fraction(entry.milli, 1000), entry.subject, judge)
        for entry in current(entries).values()
        if entry.milli is not None
    )


def read_value(slot: Slot, words: str, start: datetime) -> int:
    """What was chosen or typed, in thousandths of the slot's unit.

    ``start`` is the candidate's own start, for the clock. ValueError says what was typed
    and what to write.
    """
    typed = " ".join(words.split())
    if slot.control == CLOCK:
        return _elapsed(typed, start)
    if slot.control in STEPWISE:
        return _step(slot, typed)
    return _figure(slot, typed)


def _step(slot: Slot, typed: str) -> int:
    most = 1 if slot.control in (MET, STOP) else slot.most
    if not typed.isascii() or not typed.isdigit() or int(typed) > most:
        raise ValueError(f"You sent {_quoted(typed)}. Choose a step from 0 to {most}.")
    return int(typed) * 1000


def _figure(slot: Slot, typed: str) -> int:
    such_as = SUCH_AS.get(slot.unit, "12")
    if not FIGURE.match(typed):
        raise ValueError(f"You wrote {_quoted(typed)}. Write a figure in {slot.unit}, such as {such_as}.")
    value = Fraction(typed.replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    least = _least(slot)
    if not least <= value <= slot.most:
        raise ValueError(
            f"You wrote {_quoted(typed)}. "
            f"Write a figure from {plain(least)} to {plain(slot.most)} {slot.unit}."
        )
    if slot.unit == "pieces" and value.denominator != 1:
        raise ValueError(f"You wrote {_quoted(typed)}. Count whole pieces, such as {such_as}.")
    return int(value * 1000)


def _elapsed(typed: str, start: datetime) -> int:
    match = CLOCK_TIME.match(typed)
    parts = [int(part or 0) for part in match.groups()] if match else [99, 99, 99]
    if parts[0] > 23 or parts[1] > 59 or parts[2] > 59:
        raise ValueError(f"You wrote {_quoted(typed)}. Write a time such as 12:22 or 12:22:30.")
    presented = datetime.combine(start.date(), time(*parts), start.tzinfo)
    if presented < start:
        raise ValueError(
            f"You wrote {_quoted(typed)}. The candidate started at {start:%H:%M}; write a later time."
        )
    return elapsed_milli(start, presented)


def elapsed_milli(start: datetime, presented: datetime) -> int:
    """Thousandths of a minute from the start; the nearest, a half up."""
    return half_up(Fraction((presented - start) // timedelta(seconds=1), 60) * 1000, 1)


def presented_at(milli: int, start: datetime) -> datetime:
    """The time of day that a clock entry stands for, to the second."""
    return start + timedelta(seconds=half_up(Fraction(milli * 60, 1000), 1))


def value_words(slot: Slot, milli: int | None, start: datetime) -> str:
    """The value of an entry as it is said: "2 of 3", "133 g", "12:22", "met", "withdrawn"."""
    if milli is None:
        return "withdrawn"
    value = plain(Fraction(milli, 1000), 3)
    if slot.control == CLOCK:
        at = presented_at(milli, start)
        return f"{at:%H:%M:%S}" if at.second else f"{at:%H:%M}"
    if slot.control == MET:
        return "met" if milli >= 1000 else "not yet met"
    if slot.control == STOP:
        return "stopped" if milli >= 1000 else "not stopped"
    if slot.control in (RUNGS, RULER):
        return f"{value} of {slot.most}"
    return f"{value} {slot.unit}"


def demand_value(slot: Slot, milli: int | None, words: str = "") -> None:
    """Refuse what a slot cannot hold: RuleBroken "not_a_mark", "say_why_stopped"."""
    if milli is None:
        return
    if slot.control in STEPWISE:
        most = max(slot.most, 1)
        if milli % 1000 or not 0 <= milli <= most * 1000:
            raise RuleBroken("not_a_mark", f"{slot.name}: choose a step from 0 to {most}.")
    elif slot.control != CLOCK and not _least(slot) * 1000 <= milli <= slot.most * 1000:
        figure = plain(Fraction(milli, 1000))
        raise RuleBroken("not_a_mark", f"{slot.name}: {figure} {slot.unit} cannot be right.")
    elif slot.control == CLOCK and milli < 0:
        raise RuleBroken("not_a_mark", f"{slot.name}: nobody presents before the own start.")
    if slot.control == STOP and milli and not words.strip():
        raise RuleBroken(
            "say_why_stopped", f"{slot.name}: write what was seen before the sitting is stopped."
        )


def _least(slot: Slot) -> int:
    return -50 if slot.unit == "°C" else 0


def _quoted(typed: str) -> str:
    if not typed:
        return "nothing"
    return f"“{typed[:LONGEST_QUOTE]}…”" if len(typed) > LONGEST_QUOTE else f"“{typed}”"
