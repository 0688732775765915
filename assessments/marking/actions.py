"""Opening sheets, giving marks, undoing, submitting, naming markers, agreeing.

Every mark is a row that is added at once and never changed. Rows are locked sitting
first, then sheet, before they are judged.
"""

from collections.abc import Collection
from datetime import datetime
from uuid import UUID, uuid4
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from assessments.marking.entry import before, demand_value
from assessments.marking.models import MarkEntry, Remark, Sheet, Sitting
from assessments.marking.queries import (
    absent_from,
    extra_times,
    faults_of,
    placed_learners,
    sitting_data,
    start_of,
)
from assessments.marking.sittings import SittingData, demand_finished, differences
from assessments.marking.slots import Slot, slot_at
from assessments.schemes.models import Brief
from assessments.schemes.queries import content_of
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.people.queries import the_college
from curriculum.records.actions import draw_code
from kitchen.lessons.models import Lesson, PlaceLearner

OPEN, SUBMITTED, AGREED = Sitting.State.OPEN, Sitting.State.SUBMITTED, Sitting.State.AGREED


@transaction.atomic
def open_sittings(*, lesson: Lesson, by: User) -> list[Sitting]:
    """Open a sitting and the first marker's sheet for every learner placed and not absent.

    The first marker is the lesson's lecturer. Who has one already keeps it, so that opening
    twice, or after somebody came late, changes nothing for the others.
    RuleBroken: "no_brief", "brief_not_checked", "nobody_to_mark", "lesson_cancelled".
    """
    if Lesson.objects.select_for_update().get(pk=lesson.pk).state == Lesson.State.CANCELLED:
        raise RuleBroken("lesson_cancelled", "This lesson is cancelled. No mark sheet is opened for it.")
    briefs = {brief.version_id: brief for brief in lesson.briefs.select_related("scheme_version")}
    _demand_checked(briefs)
    absent = absent_from(lesson)
    placed = [row for row in placed_learners(lesson) if row.student_id not in absent]
    if not placed:
        raise RuleBroken("nobody_to_mark", "Nobody stands at a bench in this lesson. Give out places first.")
    have = set(Sitting.objects.filter(brief__lesson=lesson).values_list("student_id", flat=True))
    extra, zone = extra_times(lesson), ZoneInfo(the_college().time_zone)
    for row in placed:
        if row.student_id not in have:
            _open_one(row, _brief_of(row, briefs), lesson, extra.get(row.student_id, 0), zone)
    return list(Sitting.objects.filter(brief__lesson=lesson).order_by("pk"))


def _demand_checked(briefs: dict[int, Brief]) -> None:
    if not briefs:
        raise RuleBroken(
            "no_brief", "This lesson has no assessment brief yet. Write it, and have it checked."
        )
    if any(brief.checked_by_id is None for brief in briefs.values()):
        raise RuleBroken(
            "brief_not_checked",
            "The brief has not been checked by another person. Ask the verifier or another lecturer; "
            "marking waits until then.",
        )


def _brief_of(row: PlaceLearner, briefs: dict[int, Brief]) -> Brief:
    brief = briefs.get(row.place.version_id)
    if brief is None:
        raise RuleBroken(
            "no_brief_for_variant",
            f"{row.student.user.name} cooks a version that no brief speaks of. Write the brief again, "
            "so that every version of this lesson has one, and have it checked.",
        )
    return brief


def _open_one(row: PlaceLearner, brief: Brief, lesson: Lesson, extra: int, zone: ZoneInfo) -> None:
    sitting = Sitting.objects.create(
        brief=brief,
        student=row.student,
        code=draw_code(Sitting),
        starts_at=start_of(lesson, zone, row.shift.starts),
        minutes=brief.minutes,
        extra_per_mille=extra,
    )
    Sheet.objects.create(sitting=sitting, part=Sheet.Part.FIRST, marker_id=lesson.lecturer_id)
    _open_beside(sitting, lesson)


def _open_beside(sitting: Sitting, lesson: Lesson) -> None:
    """Whoever comes late is marked by the same further markers as the others."""
    beside = Sheet.objects.filter(sitting__brief__lesson=lesson).exclude(part__in=["first", "agreed"])
    pairs = sorted(beside.values_list("part", "marker_id").distinct())
    Sheet.objects.bulk_create(Sheet(sitting=sitting, part=part, marker_id=marker) for part, marker in pairs)


@transaction.atomic
def name_marker(*, lesson: Lesson, marker: User, by: User) -> list[Sheet]:
    """Give a further marker a blind sheet of every sitting of a lesson.

    With one assessor the scheme takes one second marker, with three a second and a third.
    RuleBroken: "no_sittings", "marker_is_first", "already_marks", "markers_complete",
    "first_handed_in" (a plate judged and gone is not marked again from another's sheet).
    """
    sittings = list(Sitting.objects.select_for_update().filter(brief__lesson=lesson).order_by("pk"))
    if not sittings:
        raise RuleBroken("no_sittings", "Open the mark sheets first; then name who marks beside you.")
    if marker.pk in (lesson.lecturer_id, lesson.cover_id):
        raise RuleBroken("marker_is_first", f"{marker.name} marks this lesson first. Name somebody else.")
    sheets = Sheet.objects.filter(sitting__in=sittings)
    if sheets.filter(marker=marker).exists():
        raise RuleBroken("already_marks", f"{marker.name} already has a sheet in this lesson.")
    if any(each.state != OPEN for each in sittings) or sheets.filter(submitted_at__isnull=False).exists():
        raise RuleBroken(
            "first_handed_in", "A sheet of this lesson was handed in already; nobody marks its plates afresh."
        )
    part = _free_part(sittings[0], set(sheets.values_list("part", flat=True)))
    return Sheet.objects.bulk_create([Sheet(sitting=each, part=part, marker=marker) for each in sittings])


def _free_part(sitting: Sitting, taken: set[str]) -> str:
    assessors = content_of(sitting.brief.scheme_version).assessors
    wanted = [Sheet.Part.SECOND, Sheet.Part.THIRD][: max(1, assessors - 1)]
    for part in wanted:
        if part not in taken:
            return part
    raise RuleBroken(
        "markers_complete", "This scheme takes no further marker; everybody it asks for is named."
    )


@transaction.atomic
def give_mark(
    *,
    sheet: Sheet,
    place: str,
    milli: int | None,
    by: User,
    key: UUID,
    faults: Collection[str] = (),
    based_on: int | None = None,
    device_at: datetime | None = None,
    words: str = "",
) -> MarkEntry:
    """Add one entry to a sheet; the same key with the same contents gives the first entry again.

    ``place`` is the slot ("texture", "technique.blind_baking", "critical_stop.food_safety");
    ``milli`` the value in thousandths of its unit (entry.py), None for faults seen before a
    mark; ``based_on`` the number that the device had seen (None: the newest). An entry based
    on an older number is kept and shown as a conflict. ``words`` go beside the ledger.
    RuleBroken: "sheet_submitted", "sitting_closed", "no_such_slot", "not_a_mark",
    "not_its_fault", "say_why_stopped", "key_used_for_something_else".
    """
    sheet = _locked(sheet)
    kept = MarkEntry.objects.filter(key=key).select_related("criterion").first()
    if kept is not None:
        return _same_as(kept, sheet, place, milli, faults)
    data = sitting_data(sheet.sitting)
    _demand_open(sheet)
    slot = _slot(data, sheet, place)
    demand_value(slot, milli, words)
    _demand_faults(data, faults)
    return _add(sheet, slot, milli, faults, based_on, device_at, words, by, key)


def _locked(sheet: Sheet) -> Sheet:
    """The sheet as it stands now, with its sitting, both locked."""
    Sitting.objects.select_for_update().get(pk=sheet.sitting_id)
    return (
        Sheet.objects.select_for_update(of=("self",))
        .select_related("sitting__brief__scheme_version")
        .get(pk=sheet.pk)
    )


def _same_as(
    kept: MarkEntry, sheet: Sheet, place: str, milli: int | None, faults: Collection[str]
) -> MarkEntry:
    there = f"{kept.criterion.code}.{kept.technique}" if kept.technique else kept.criterion.code
    if (kept.sheet_id, there, kept.milli, sorted(kept.faults)) != (sheet.pk, place, milli, sorted(faults)):
        raise RuleBroken(
            "key_used_for_something_else",
            "This mark was already sent with another value. Open the sheet again and give it once more.",
        )
    return kept


def _demand_open(sheet: Sheet) -> None:
    if sheet.submitted_at is not None:
        raise RuleBroken(
            "sheet_submitted",
            "This sheet was submitted. Take it back before you change a mark, as long as nothing was "
            "handed back.",
        )
    if sheet.sitting.state not in (OPEN,):
        raise RuleBroken("sitting_closed", "The marks of this sitting stand; nothing can be changed here.")


def _slot(data: SittingData, sheet: Sheet, place: str) -> Slot:
    slot = slot_at(place, data.slots(sheet.part))
    if slot is None:
        raise RuleBroken("no_such_slot", f"This sheet has nothing to mark called “{place[:60]}”.")
    return slot


def _demand_faults(data: SittingData, faults: Collection[str]) -> None:
    if not faults:
        return
    known = {fault.code for each in faults_of(s.code for s in data.subjects).values() for fault in each}
    strange = sorted(set(faults) - known)
    if strange:
        raise RuleBroken(
            "not_its_fault", f"{', '.join(strange)}: no technique of this brief has such a fault."
        )


def _add(
    sheet: Sheet,
    slot: Slot,
    milli: int | None,
    faults: Collection[str],
    based_on: int | None,
    device_at: datetime | None,
    words: str,
    by: User,
    key: UUID,
) -> MarkEntry:
    criterion = sheet.sitting.brief.scheme_version.criteria.get(code=slot.criterion)
    chain = sheet.entries.filter(criterion=criterion, technique=slot.subject).order_by("-number")
    last = chain.first()
    number = last.number + 1 if last else 1
    entry = MarkEntry.objects.create(
        sheet=sheet,
        criterion=criterion,
        technique=slot.subject,
        number=number,
        milli=milli,
        faults=sorted(faults),
        based_on=number - 1 if based_on is None else based_on,
        supersedes=last,
        key=key,
        device_at=device_at,
        by=by,
    )
    if words.strip():
        Remark.objects.create(entry=entry, words=words.strip()[:600])
    return entry


@transaction.atomic
def undo_mark(*, sheet: Sheet, place: str, by: User, key: UUID) -> MarkEntry:
    """Undo the last entry of a slot by one more entry with the value before it, or none.

    RuleBroken: "nothing_to_undo" and those of an open sheet.
    """
    sheet = _locked(sheet)
    kept = MarkEntry.objects.filter(key=key).first()
    if kept is not None:
        return kept
    _demand_open(sheet)
    data = sitting_data(sheet.sitting)
    slot = _slot(data, sheet, place)
    mine = data.sheet(sheet.part)
    last, earlier = before(mine.entries if mine else (), place)
    if last is None:
        raise RuleBroken("nothing_to_undo", f"{slot.name}: nothing was given yet, so nothing is undone.")
    milli, faults = (earlier.milli, earlier.faults) if earlier else (None, ())
    return _add(sheet, slot, milli, faults, last.number, None, "", by, key)


@transaction.atomic
def submit_sheet(*, sheet: Sheet, by: User) -> Sheet:
    """Hand in a sheet; with the last one the sitting is submitted.

    Judges too far apart get all their sheets back, to talk it over and mark again.
    RuleBroken: "sheet_unfinished" names what is missing; "marks_in_conflict" names marks
    that two devices wrote over each other.
    """
    sheet = _locked(sheet)
    if sheet.submitted_at is not None:
        return sheet
    _demand_open(sheet)
    data = sitting_data(sheet.sitting)
    demand_finished(data, sheet.part)
    sheet.submitted_at = timezone.now()
    sheet.save(update_fields=["submitted_at"])
    after = sitting_data(sheet.sitting)
    if not after.all_in:
        return sheet
    if after.judges_apart():
        sheet.sitting.sheets.update(submitted_at=None)
        sheet.refresh_from_db()
        return sheet
    _set_state(sheet.sitting, SUBMITTED)
    return sheet


def _set_state(sitting: Sitting, state: str) -> None:
    sitting.state = state
    sitting.save(update_fields=["state"])


@transaction.atomic
def take_back_sheet(*, sheet: Sheet, by: User) -> Sheet:
    """Take a submitted sheet back to change it, while no other marker depends on it.

    RuleBroken: "sitting_closed" once marks stand, "others_are_in" once another marker's
    sheet is in too (each could then have seen the other's marks).
    """
    sheet = _locked(sheet)
    if sheet.sitting.state in (AGREED, Sitting.State.CONFIRMED):
        raise RuleBroken("sitting_closed", "The marks of this sitting stand; nothing can be changed here.")
    others = sheet.sitting.sheets.exclude(pk=sheet.pk)
    if others.exists() and not others.filter(submitted_at=None).exists():
        raise RuleBroken(
            "others_are_in",
            "Every sheet of this sitting is in, so the markers can see each other’s marks. "
            "Agree a mark instead.",
        )
    sheet.submitted_at = None
    sheet.save(update_fields=["submitted_at"])
    _set_state(sheet.sitting, OPEN)
    return sheet


@transaction.atomic
def agree_marks(*, sitting: Sitting, take: str, reason: str, by: User) -> Sheet:
    """Agree on the first or the second marker's sheet, with the reason in words.

    The agreed sheet is a copy of the one taken; both others stay as they were given.
    RuleBroken: "not_all_in", "say_why_agreed", "no_such_sheet", "sitting_closed".
    """
    sitting = Sitting.objects.select_for_update().select_related("brief").get(pk=sitting.pk)
    if sitting.state != SUBMITTED:
        raise RuleBroken(
            "not_all_in" if sitting.state == OPEN else "sitting_closed",
            "A mark is agreed once every sheet is in and before anything is handed back.",
        )
    if not reason.strip():
        raise RuleBroken("say_why_agreed", "Write why this mark was agreed.", field="reason")
    taken = sitting.sheets.filter(part=take).exclude(part=Sheet.Part.AGREED).first()
    if taken is None or sitting.sheets.filter(part=Sheet.Part.AGREED).exists():
        raise RuleBroken("no_such_sheet", "There is no such sheet to agree on, or a mark was already agreed.")
    agreed = Sheet.objects.create(
        sitting=sitting, part=Sheet.Part.AGREED, marker=by, submitted_at=timezone.now()
    )
    _copy_current(taken, agreed, reason, by)
    return agreed


def _copy_current(taken: Sheet, agreed: Sheet, reason: str, by: User) -> None:
    rows = (
        taken.entries.filter(superseded_by=None).select_related("criterion").order_by("criterion__position")
    )
    for place, row in enumerate(rows):
        entry = MarkEntry.objects.create(
            sheet=agreed,
            criterion=row.criterion,
            technique=row.technique,
            number=1,
            milli=row.milli,
            faults=row.faults,
            key=uuid4(),
            by=by,
        )
        if place == 0:
            Remark.objects.create(entry=entry, words=f"Agreed: {reason.strip()}"[:600])


@transaction.atomic
def close_sitting(*, sitting: Sitting, by: User) -> Sitting:
    """Let the marks of a sitting stand: from now on nothing of it changes.

    RuleBroken: "not_submitted", "marks_differ" names how far two markers are apart.
    """
    sitting = Sitting.objects.select_for_update().get(pk=sitting.pk)
    if sitting.state in (AGREED, Sitting.State.CONFIRMED):
        return sitting
    if sitting.state != SUBMITTED:
        raise RuleBroken("not_submitted", "The mark sheets of this sitting are not all in yet.")
    apart = differences(sitting_data(sitting))
    if apart:
        raise RuleBroken("marks_differ", f"{' '.join(apart)} Agree a mark with its reason first.")
    _set_state(sitting, AGREED)
    return sitting
