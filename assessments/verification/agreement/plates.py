"""Plates that more than one marker marked, line by line of a scheme.

For ``figures.py``. A line is one criterion (its techniques together) or the total. Only sittings
whose sheets are all in are read: nobody learns here what the other gave before.

Worked example: two markers gave rubbing in 3 and 2, appearance 8 and 8. The line "Technical skill"
has one plate (3, 2), "Appearance" one (8, 8).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from assessments.marking.entry import current
from assessments.marking.sittings import AGREED, APART_MILLI_POINTS, SheetData, SittingData
from assessments.marking.slots import MET, RULER, RUNGS
from assessments.schemes.content import SchemeContent

TOTAL = "total"
Plate = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """What was marked: its plates, a mark a marker, in steps of the ladder or in points.

    ``step`` is how far apart two marks may be and still count as near; ``steps`` the size of the
    ladder, None for the total.
    """

    code: str
    name: str
    step: float
    steps: int | None
    plates: tuple[Plate, ...]


@dataclass(frozen=True, slots=True)
class Beside:
    """One marker's total of one plate beside the mean of the others' totals, in points."""

    marker: str
    on: date
    own: float
    others: float


def lines(sittings: Iterable[SittingData]) -> tuple[Line, ...]:
    """Every judged line of the newest of the schemes, then the total."""
    found = [each for each in sittings if _markers(each)]
    if not found:
        return ()
    scheme = max((each.scheme for each in found), key=lambda each: each.number)
    judged = [_line(scheme, criterion.code, found) for criterion in scheme.criteria]
    total = Line(
        TOTAL, "Total in points", APART_MILLI_POINTS / 1000, None, tuple(_totals(each) for each in found)
    )
    return tuple(line for line in (*judged, total) if any(_twice(plate) for plate in line.plates))


def beside(sittings: Iterable[tuple[date, SittingData]]) -> tuple[Beside, ...]:
    """Every marker's total beside the others', where one assessor makes a result."""
    rows = []
    for on, each in sittings:
        names, totals = [sheet.marker for sheet in _markers(each)], _totals(each)
        for place, (marker, own) in enumerate(zip(names, totals, strict=True)):
            others = [t for n, t in enumerate(totals) if n != place and t is not None]
            if own is not None and others:
                rows.append(Beside(marker, on, own, sum(others) / len(others)))
    return tuple(rows)


def _markers(sitting: SittingData) -> tuple[SheetData, ...]:
    """The sheets of those who marked by themselves; empty unless two or more are all in."""
    sheets = tuple(sheet for sheet in sitting.sheets if sheet.part != AGREED)
    return sheets if len(sheets) > 1 and all(sheet.submitted for sheet in sheets) else ()


def _line(scheme: SchemeContent, code: str, sittings: list[SittingData]) -> Line:
    criterion = scheme.criterion(code)
    plates: list[Plate] = []
    steps = 0
    for sitting in sittings:
        parts = [sheet.part for sheet in _markers(sitting)]
        slots = [
            s for s in sitting.slots(parts[0]) if s.criterion == code and s.control in (RUNGS, RULER, MET)
        ]
        steps = max([steps, *(slot.most + 1 for slot in slots)])
        given = [current(sheet.entries) for sheet in _markers(sitting)]
        plates += [tuple(_mark(marks.get(slot.place)) for marks in given) for slot in slots]
    return Line(code, criterion.name, 1, steps or None, tuple(plates))


def _mark(entry: object) -> float | None:
    milli = getattr(entry, "milli", None)
    return None if milli is None else milli / 1000


def _totals(sitting: SittingData) -> Plate:
    """Each marker's own total; None where a sheet alone makes none (judges make one together)."""
    if sitting.together:
        return tuple(None for _ in _markers(sitting))
    totals = [sitting.outcome(sheet.part).milli_total for sheet in _markers(sitting)]
    return tuple(None if total is None else total / 1000 for total in totals)


def _twice(plate: Plate) -> bool:
    return sum(mark is not None for mark in plate) > 1
