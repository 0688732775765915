"""One sitting as plain data: who marked what on which sheet, and what comes of it.

For the page at the bench, the overview of a lesson and the feedback. With one assessor
every sheet has its own outcome; with several judges the sheets make one outcome together.
The agreed sheet, once there is one, stands above the first.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from typing import Any

from assessments.marking.entry import Entry, conflicts, current, marks_of
from assessments.marking.slots import CORE_READING, Slot, slots
from assessments.schemes.card import Card, Subject, Targets
from assessments.schemes.clock import allowed_minutes, deadline
from assessments.schemes.content import SchemeContent
from assessments.schemes.points import Outcome, reckon
from curriculum.errors import RuleBroken

FIRST, SECOND, THIRD, AGREED = "first", "second", "third", "agreed"
#: The number of the judge whose sheet this is.
JUDGES = {FIRST: 1, SECOND: 2, THIRD: 3, AGREED: 1}
#: From here on two markers of one plate talk before anything is handed back: 5 of 100
#: (common practice, no source).
APART_MILLI_POINTS = 5_000


@dataclass(frozen=True, slots=True)
class SheetData:
    """One marker's sheet: every entry of its chains."""

    part: str
    marker: str
    marker_id: int
    submitted: bool
    entries: tuple[Entry, ...] = ()


@dataclass(frozen=True, slots=True)
class SittingData:
    """A sitting with its scheme, techniques, targets, clock and sheets.

    ``start`` is the candidate's own start in the college's zone.
    """

    scheme: SchemeContent
    subjects: tuple[Subject, ...]
    targets: Targets
    start: datetime
    minutes: int
    extra_per_mille: int
    sheets: tuple[SheetData, ...] = ()

    @property
    def together(self) -> bool:
        """Several judges make one outcome."""
        return self.scheme.assessors > 1

    @property
    def due(self) -> datetime:
        """When the plate is due for this candidate."""
        return deadline(self.start, self.minutes, self.extra_per_mille)

    @property
    def all_in(self) -> bool:
        """Every sheet that this scheme needs, and every other one begun, was submitted."""
        wanted = self.scheme.assessors if self.together else 1
        return len(self.sheets) >= wanted and all(sheet.submitted for sheet in self.sheets)

    def sheet(self, part: str) -> SheetData | None:
        """The sheet of a part, or None."""
        return next((sheet for sheet in self.sheets if sheet.part == part), None)

    def slots(self, part: str) -> tuple[Slot, ...]:
        """What the marker of this part marks."""
        return slots(self.scheme, self.subjects, self.targets, judge=JUDGES[part])

    def card(self, *parts: str) -> Card:
        """The marks of these parts as one card; judges are numbered by their part."""
        marks = [
            mark
            for sheet in self.sheets
            if sheet.part in parts
            for mark in marks_of(sheet.entries, JUDGES[sheet.part])
        ]
        allowed = Fraction(allowed_minutes(self.minutes, self.extra_per_mille))
        return Card(tuple(marks), self.subjects, self.targets, allowed)

    def outcome(self, part: str) -> Outcome:
        """What one sheet alone comes to."""
        return reckon(self.scheme, self.card(part))

    def record(self) -> Outcome:
        """The outcome that counts: agreed, or of all judges together, or of the first marker."""
        return reckon(self.scheme, self.card(*self.record_parts()))

    def record_parts(self) -> tuple[str, ...]:
        """The parts whose marks count."""
        if self.sheet(AGREED):
            return (AGREED,)
        return (FIRST, SECOND, THIRD) if self.together else (FIRST,)

    def missing(self, part: str) -> tuple[str, ...]:
        """The names of what this sheet still lacks."""
        sheet = self.sheet(part)
        standing = current(sheet.entries) if sheet else {}
        if any(entry.criterion in self._stops() and entry.milli for entry in standing.values()):
            return ()
        return tuple(
            slot.name
            for slot in self.slots(part)
            if slot.needed and (slot.place not in standing or standing[slot.place].milli is None)
        )

    def given(self, part: str) -> tuple[int, int]:
        """How many slots of a sheet hold a mark, and how many there are to mark."""
        needed = sum(slot.needed for slot in self.slots(part))
        return max(0, needed - len(self.missing(part))), needed

    def judges_apart(self) -> tuple[str, ...]:
        """What the judges must talk over, once each of them has marked it."""
        return self.record().again if self.together else ()

    def taste_warning(self) -> str:
        """Why nobody tastes yet; empty when the core was reached or the dish asks for none."""
        core = [slot for slot in self.slots(FIRST) if slot.control == CORE_READING]
        if not core:
            return ""
        reading = self.card(*self.record_parts()).value(core[0].criterion)
        if reading is None:
            return f"Do not taste yet: no core temperature is written down. {core[0].asks}"
        if reading * 10 < (self.targets.core_decicelsius or 0):
            return f"Do not taste: the core was not reached. {core[0].asks}"
        return ""

    def _stops(self) -> set[str]:
        return {rule.code for rule in self.scheme.rules if rule.kind == "stop_and_record"}


def takes_more_markers(rows: Iterable[Any]) -> bool:
    """Whether a lesson's scheme takes a further marker: two of one assessor, three of three.

    ``rows`` have their sitting's data as ``data``; an empty lesson takes none yet.
    """
    first = next(iter(rows), None)
    if first is None:
        return False
    data: SittingData = first.data
    apart = [sheet for sheet in data.sheets if sheet.part != AGREED]
    return len(apart) < max(2, data.scheme.assessors)


def visible_parts(own: str, sheets: tuple[SheetData, ...]) -> frozenset[str]:
    """The parts that somebody may see: the own sheet always, others not before all are in.

    ``own`` is empty for those who mark nothing here (verifier, programme manager): they
    see what was submitted, and of a sitting with several markers nothing before all are in.
    """
    everything_in = all(sheet.submitted for sheet in sheets)
    seen = {sheet.part for sheet in sheets if sheet.submitted and everything_in}
    return frozenset(seen | ({own} if own else set()))


def demand_finished(data: SittingData, part: str) -> None:
    """Refuse a sheet that lacks a mark or holds one in conflict.

    RuleBroken: "sheet_unfinished" names what is missing; "marks_in_conflict" names marks
    that two devices wrote without seeing each other.
    """
    missing = data.missing(part)
    if missing:
        raise RuleBroken(
            "sheet_unfinished",
            f"Not submitted: {len(missing)} still to mark ({', '.join(missing)}).",
            missing=missing,
        )
    sheet = data.sheet(part)
    names = {slot.place: slot.name for slot in data.slots(part)}
    torn = [names[entry.place] for entry in conflicts(sheet.entries)] if sheet else []
    if torn:
        raise RuleBroken(
            "marks_in_conflict",
            f"Two devices marked {', '.join(torn)} without seeing each other. Give the mark once more, "
            "then submit.",
        )


def differences(data: SittingData) -> tuple[str, ...]:
    """Why a first and a second marker must agree before feedback; empty when they need not."""
    if data.together or data.sheet(AGREED) or not data.sheet(SECOND):
        return ()
    first, second = data.outcome(FIRST), data.outcome(SECOND)
    if first.milli_total is None or second.milli_total is None:
        return () if first.band == second.band else (f"One says {first.band}, the other {second.band}.",)
    found = []
    apart = abs(first.milli_total - second.milli_total)
    if apart > APART_MILLI_POINTS:
        found.append(
            f"The totals are {first.milli_total // 1000} and {second.milli_total // 1000}, "
            f"{apart // 1000} apart; more than {APART_MILLI_POINTS // 1000} are talked over."
        )
    if first.band != second.band:
        found.append(f"One says {first.band}, the other {second.band}.")
    return tuple(found)
