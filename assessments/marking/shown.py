"""A mark sheet as its page shows it: each slot with what stands on it, the sum, what comes next."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from fractions import Fraction
from typing import Any, Protocol

from assessments.marking.entry import STEPWISE, Entry, current, value_words
from assessments.marking.sittings import SittingData, differences
from assessments.marking.slots import CLOCK, CORE_READING, MEASURE, RULER, STOP, Slot
from assessments.schemes.figures import count, plain
from assessments.schemes.points import Outcome, SumLine
from curriculum.wording import duration

#: How much one press of minus or plus changes a figure, by unit.
STEP_MILLI = {"g": 1000, "°C": 1000, "pieces": 1000}


class FaultRow(Protocol):
    """A fault of the catalogue, as rows have it."""

    code: str
    seen: str
    cause: str


@dataclass(frozen=True, slots=True)
class FaultChoice:
    """A fault to tap."""

    code: str
    seen: str
    cause: str
    ticked: bool


@dataclass(frozen=True, slots=True)
class Choice:
    """One step of a rung ladder, a ruler or a met line."""

    value: int
    words: str
    chosen: bool
    band_ends: bool = False


@dataclass(frozen=True, slots=True)
class SlotShown:
    """One slot on the page. ``typed`` is what stands in a box, ``number`` what this page has seen.

    ``less`` and ``more`` are the figures one press away; ``given`` and ``line`` say the mark and
    what it earns; ``error`` what was wrong with what was just sent.
    """

    slot: Slot
    anchor: str
    number: int
    given: str
    choices: tuple[Choice, ...]
    faults: tuple[FaultChoice, ...]
    typed: str = ""
    less: str = ""
    more: str = ""
    line: SumLine | None = None
    conflict: str = ""
    error: str = ""
    cue: str = ""
    by: str = ""
    bands: str = ""


@dataclass(frozen=True, slots=True)
class LastDone:
    """The last entry of a sheet, with the slot that an undo would act on."""

    at: datetime
    words: str
    place: str
    anchor: str


@dataclass(frozen=True, slots=True)
class SheetShown:
    """A whole sheet. ``left`` says the time left or over, empty when the lesson is on another day."""

    slots: tuple[SlotShown, ...]
    outcome: Outcome
    given: int
    needed: int
    missing: tuple[str, ...]
    taste_warning: str
    again: tuple[str, ...]
    due: str
    extra: str
    left: str
    over: bool
    last: LastDone | None
    together: bool


def sheet_shown(
    data: SittingData,
    part: str,
    faults: Mapping[str, Iterable[FaultRow]],
    cues: Mapping[str, str],
    now: datetime | None = None,
    wrong: tuple[str, str, str] = ("", "", ""),
) -> SheetShown:
    """One marker's sheet. ``wrong`` is (place, what was typed, why it was refused) of a mark just sent."""
    sheet = data.sheet(part)
    entries = sheet.entries if sheet else ()
    standing, outcome = current(entries), data.outcome(part)
    lines = {line.code.replace(":", "."): line for line in outcome.lines}
    shown = tuple(
        _slot_shown(slot, standing.get(slot.place), data, faults, cues, lines.get(slot.place), wrong)
        for slot in data.slots(part)
    )
    given, needed = data.given(part)
    left, over = _left(data.due, now)
    return SheetShown(
        slots=shown,
        outcome=outcome,
        given=given,
        needed=needed,
        missing=data.missing(part),
        taste_warning=data.taste_warning(),
        again=data.judges_apart() if sheet and not sheet.submitted else (),
        due=f"{data.due:%H:%M:%S}" if data.due.second else f"{data.due:%H:%M}",
        extra=f"{plain(Fraction(data.extra_per_mille, 10))} % more time" if data.extra_per_mille else "",
        left=left,
        over=over,
        last=_last(entries, data, part),
        together=data.together,
    )


def short_name(name: str, most: int = 12) -> str:
    """The first word of a name, cut where it is long, for a button at the lower edge."""
    first = name.split()[0] if name.split() else name
    return first if len(first) <= most else f"{first[: most - 1]}…"


def slot_shown(shown: SheetShown, place: str) -> SlotShown | None:
    """One slot of a sheet by its place."""
    return next((each for each in shown.slots if each.slot.place == place), None)


def _slot_shown(
    slot: Slot,
    entry: Entry | None,
    data: SittingData,
    faults: Mapping[str, Iterable[FaultRow]],
    cues: Mapping[str, str],
    line: SumLine | None,
    wrong: tuple[str, str, str],
) -> SlotShown:
    refused = wrong[0] == slot.place
    milli = entry.milli if entry else None
    figure = slot.control in (MEASURE, CORE_READING)
    step = STEP_MILLI.get(slot.unit, 1000)
    base = milli if milli is not None else _target_milli(slot, data)
    return SlotShown(
        slot=slot,
        anchor="slot-" + slot.place.replace(".", "-"),
        number=entry.number if entry else 0,
        given=value_words(slot, milli, data.start) if milli is not None else "",
        choices=_choices(slot, milli),
        faults=_fault_choices(slot, entry, data, faults),
        typed=wrong[1] if refused else _typed(slot, milli, data.start),
        less=plain(Fraction(base - step, 1000), 3) if figure and base is not None else "",
        more=plain(Fraction(base + step, 1000), 3) if figure and base is not None else "",
        line=line,
        conflict=_conflict(entry),
        error=wrong[2] if refused else "",
        cue=cues.get(slot.subject, ""),
        by=entry.by if entry else "",
        bands=_bands(slot),
    )


def _target_milli(slot: Slot, data: SittingData) -> int | None:
    """The target, as the figure that minus and plus start from; None where there is none."""
    targets = data.targets
    if slot.control == CORE_READING:
        return (targets.core_decicelsius or 0) * 100
    if slot.unit == "pieces":
        return (targets.portions or 0) * 1000
    if slot.unit == "°C":
        return (targets.serve_low_decicelsius or 0) * 100
    return targets.portion_milligrams if "target" in slot.asks else None


def _typed(slot: Slot, milli: int | None, start: datetime) -> str:
    if milli is None or slot.control in STEPWISE:
        return ""
    if slot.control == CLOCK:
        return value_words(slot, milli, start)
    return plain(Fraction(milli, 1000), 3).replace(",", "")


def _choices(slot: Slot, milli: int | None) -> tuple[Choice, ...]:
    if slot.control == "met":
        words = ("Not yet met", "Met")
        return tuple(Choice(value, words[value], milli == value * 1000) for value in (1, 0))
    if slot.control == "rungs":
        rungs = sorted(slot.ladder, key=lambda rung: -rung.mark)
        return tuple(Choice(rung.mark, rung.words, milli == rung.mark * 1000) for rung in rungs)
    if slot.control == RULER:
        starts = {rung.mark for rung in slot.ladder}
        return tuple(
            Choice(value, "", milli == value * 1000, value + 1 in starts) for value in range(slot.most + 1)
        )
    return ()


def _bands(slot: Slot) -> str:
    """The descriptors of a ruler in one sentence: "0 to 3: not servable; 4 and 5: …"."""
    if slot.control != RULER:
        return ""
    rungs = sorted(slot.ladder, key=lambda rung: rung.mark)
    ends = [rung.mark - 1 for rung in rungs[1:]] + [slot.most]
    said = []
    for rung, end in zip(rungs, ends, strict=True):
        span = f"{rung.mark}" if rung.mark == end else f"{rung.mark} to {end}"
        said.append(f"{span}: {rung.words.rstrip('.').lower()}")
    return "; ".join(said) + "."


def _fault_choices(
    slot: Slot, entry: Entry | None, data: SittingData, faults: Mapping[str, Iterable[FaultRow]]
) -> tuple[FaultChoice, ...]:
    if not slot.subject or slot.control == STOP:
        return ()
    ticked = set(entry.faults) if entry else set()
    return tuple(
        FaultChoice(fault.code, fault.seen, fault.cause, fault.code in ticked)
        for fault in faults.get(slot.subject, ())
    )


def _conflict(entry: Entry | None) -> str:
    if entry is None or not entry.conflicts:
        return ""
    return (
        f"Two devices marked this without seeing each other; the one sent last, by {entry.by}, stands. "
        "Give the mark once more to settle it."
    )


def _left(due: datetime, now: datetime | None) -> tuple[str, bool]:
    if now is None or now.date() != due.date():
        return "", False
    minutes = abs(int((due - now) / timedelta(minutes=1)))
    return duration(minutes), now > due


def _last(entries: tuple[Entry, ...], data: SittingData, part: str) -> LastDone | None:
    """The entry added last; entries come in the order in which they were added."""
    if not entries:
        return None
    entry = entries[-1]
    slot = next((each for each in data.slots(part) if each.place == entry.place), None)
    if slot is None or entry.at is None:
        return None
    said = value_words(slot, entry.milli, data.start)
    if entry.milli is None and entry.faults:
        said = count(len(entry.faults), "fault") + " seen"
    at = entry.at.astimezone(data.start.tzinfo)
    return LastDone(at, f"{slot.name}, {said}", entry.place, entry.place.replace(".", "-"))


@dataclass(frozen=True, slots=True)
class PartShown:
    """One sheet of a sitting, as the overview says it: state and words."""

    part: str
    marker: str
    state: str
    words: str


def parts_shown(data: SittingData, seen: frozenset[str]) -> tuple[PartShown, ...]:
    """The sheets of a sitting; of those that may not be seen only whether they are in."""
    shown = []
    for sheet in data.sheets:
        given, needed = data.given(sheet.part)
        if sheet.part not in seen:
            state, words = ("done", "submitted") if sheet.submitted else ("waiting", "not submitted")
        elif sheet.submitted:
            state, words = "done", result_words(data, sheet.part)
        elif given:
            state, words = "doing", f"{given} of {needed} given"
        else:
            state, words = "todo", "nothing given"
        shown.append(PartShown(sheet.part, sheet.marker, state, words))
    return tuple(shown)


def result_words(data: SittingData, part: str) -> str:
    """The result of a sheet: "61 of 100, merit", "competent", or that the judges make it together."""
    if data.together and not data.all_in:
        return "submitted"
    outcome = data.record() if data.together else data.outcome(part)
    return outcome_words(outcome, data)


def outcome_words(outcome: Outcome, data: SittingData) -> str:
    """A total with its band, or the band alone where there are no points."""
    if outcome.milli_total is None:
        return outcome.band or "not finished"
    total = plain(Fraction(outcome.milli_total, 1000))
    most = plain(Fraction(data.scheme.total_milli_points or 0, 1000))
    return f"{total} of {most}, {outcome.band}"


def card_said(row: Any, seen: frozenset[str]) -> dict:
    """What a card shows: each visible sheet with its outcome, or all judges together."""
    data = row.data
    together = data.together and data.all_in and bool(seen)
    sheets = (
        []
        if data.together
        else [
            (sheet, data.outcome(sheet.part), outcome_words(data.outcome(sheet.part), data))
            for sheet in data.sheets
            if sheet.part in seen
        ]
    )
    return {
        "row": row,
        "sheets": sheets,
        "together": data.record() if together else None,
        "together_words": outcome_words(data.record(), data) if together else "",
        "judges": [sheet.marker for sheet in data.sheets],
        "parts": parts_shown(data, seen),
        "differences": differences(data) if len(seen) > 1 else (),
    }


def entry_said(entry: Any, slot: Slot | None, data: SittingData) -> dict:
    """An entry just kept, for a script: its own key back, its number, whether it conflicts."""
    return {
        "key": str(entry.key),
        "place": slot.place if slot else "",
        "number": entry.number,
        "milli": entry.milli,
        "faults": list(entry.faults),
        "conflict": entry.based_on != entry.number - 1,
        "words": value_words(slot, entry.milli, data.start) if slot else "",
        "at": entry.at.isoformat(),
        "by": entry.by.name,
    }
