"""Marks read: the sittings of a lesson, one sitting as data, the faults to tap."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch, QuerySet

from assessments.marking.entry import Entry
from assessments.marking.models import MarkEntry, Sheet, Sitting
from assessments.marking.sittings import SheetData, SittingData
from assessments.schemes.briefs import read_targets
from assessments.schemes.card import Subject
from assessments.schemes.content import SchemeContent, read_scheme
from assessments.schemes.models import Brief, SchemeVersion
from assessments.schemes.queries import subjects_of
from curriculum.people.models import Adjustment, AdjustmentKind, Student, User
from curriculum.people.queries import local_now, the_college
from curriculum.people.roles import LECTURER, SECOND_MARKER
from curriculum.techniques.models import Fault
from kitchen.lessons.models import Attendance, Lesson, PlaceLearner


@dataclass(frozen=True, slots=True)
class SittingRow:
    """A sitting with its data and the bench it stood at (0 when nobody placed it)."""

    sitting: Sitting
    data: SittingData
    bench: int

    @property
    def learner(self) -> Student:
        """Who cooked."""
        return self.sitting.student


def with_sheets(rows: QuerySet[Sitting]) -> QuerySet[Sitting]:
    """Sittings with all that ``sitting_data`` reads, in three queries."""
    entries = MarkEntry.objects.select_related("criterion", "by").order_by("pk")
    sheets = Sheet.objects.select_related("marker").order_by("pk")
    return rows.select_related(
        "student__user", "brief__lesson", "brief__version__recipe", "brief__scheme_version__scheme"
    ).prefetch_related(Prefetch("sheets", sheets.prefetch_related(Prefetch("entries", entries))))


def sitting_rows(lesson: Lesson) -> list[SittingRow]:
    """Every sitting of a lesson with its data, by bench and name; a fixed number of queries."""
    benches = benches_of(lesson)
    sittings = list(with_sheets(Sitting.objects.filter(brief__lesson=lesson)))
    made = rows_of(sittings, benches)
    return sorted(made, key=lambda row: (row.bench or 999, row.learner.user.name, row.sitting.attempt))


def rows_of(sittings: Iterable[Sitting], benches: dict[int, int] | None = None) -> list[SittingRow]:
    """Sittings (read by ``with_sheets``) as rows; two queries for zone and technique names."""
    sittings = list(sittings)
    zone = ZoneInfo(the_college().time_zone)
    named = {
        subject.code: subject
        for subject in subjects_of({code for each in sittings for code in each.brief.techniques})
    }
    schemes: dict[int, SchemeContent] = {}
    rows = []
    for sitting in sittings:
        version = sitting.brief.scheme_version
        if version.pk not in schemes:
            schemes[version.pk] = _scheme(version)
        data = _data(sitting, schemes[version.pk], named, zone)
        rows.append(SittingRow(sitting, data, (benches or {}).get(sitting.student_id, 0)))
    return rows


def sitting_data(sitting: Sitting) -> SittingData:
    """One sitting as data, read afresh."""
    (row,) = rows_of(with_sheets(Sitting.objects.filter(pk=sitting.pk)))
    return row.data


def _scheme(version: SchemeVersion) -> SchemeContent:
    return read_scheme(version.content)


def _data(sitting: Sitting, scheme: SchemeContent, named: dict[str, Subject], zone: ZoneInfo) -> SittingData:
    """The one function that turns the rows of a sitting into its data."""
    brief = sitting.brief
    start = sitting.starts_at or start_of(brief.lesson, zone)
    return SittingData(
        scheme=scheme,
        subjects=tuple(named[code] for code in brief.techniques),
        targets=read_targets(brief.targets),
        start=start.astimezone(zone),
        minutes=sitting.minutes,
        extra_per_mille=sitting.extra_per_mille,
        sheets=tuple(_sheet(sheet) for sheet in sitting.sheets.all()),
    )


def _sheet(sheet: Sheet) -> SheetData:
    return SheetData(
        part=sheet.part,
        marker=sheet.marker.name,
        marker_id=sheet.marker_id,
        submitted=sheet.submitted_at is not None,
        entries=tuple(_entry(row) for row in sheet.entries.all()),
    )


def _entry(row: MarkEntry) -> Entry:
    return Entry(
        criterion=row.criterion.code,
        subject=row.technique,
        number=row.number,
        milli=row.milli,
        faults=tuple(row.faults),
        based_on=row.based_on,
        by=row.by.name,
        at=row.at,
    )


def start_of(lesson: Lesson, zone: ZoneInfo, starts: object = None) -> datetime:
    """When cooking starts: the slot's start and its start-up minutes, in the college's zone."""
    begins = datetime.combine(lesson.on, starts or lesson.starts, zone)
    return begins + timedelta(minutes=lesson.start_minutes)


def benches_of(lesson: Lesson) -> dict[int, int]:
    """Bench number by learner."""
    rows = PlaceLearner.objects.filter(shift__lesson=lesson)
    return dict(rows.values_list("student_id", "place__bench__number"))


def placed_learners(lesson: Lesson) -> list[PlaceLearner]:
    """Who stands at which bench, with the version cooked there."""
    rows = PlaceLearner.objects.filter(shift__lesson=lesson, student__erased_at=None)
    return list(
        rows.select_related("student__user", "shift", "place__bench", "place__version").order_by(
            "place__bench__number", "pk"
        )
    )


def absent_from(lesson: Lesson) -> set[int]:
    """Learners whose last attendance says absent."""
    last: dict[int, str] = {}
    for student, state in lesson.attendance.order_by("number").values_list("student_id", "state"):
        last[student] = state
    return {student for student, state in last.items() if state == Attendance.State.ABSENT}


def extra_times(lesson: Lesson) -> dict[int, int]:
    """Extra time per mille by learner, of the adjustments that stand on the lesson's day."""
    rows = Adjustment.objects.filter(kind=AdjustmentKind.EXTRA_TIME, from_on__lte=lesson.on)
    rows = rows.exclude(until_on__lt=lesson.on).order_by("pk")
    return {student: percent * 10 for student, percent in rows.values_list("student_id", "percent")}


def faults_of(codes: Iterable[str]) -> dict[str, list[Fault]]:
    """The faults to tap, by technique; those retired are left out. One query."""
    found: dict[str, list[Fault]] = {}
    rows = Fault.objects.filter(technique__code__in=list(codes), retired_at=None)
    for fault in rows.select_related("technique").order_by("code"):
        found.setdefault(fault.technique.code, []).append(fault)
    return found


def cues_of(codes: Iterable[str]) -> dict[str, str]:
    """The cue of each technique by code, read with its faults' page."""
    rows = Fault.objects.filter(technique__code__in=list(codes))
    return dict(rows.values_list("technique__code", "technique__cue").distinct())


def possible_markers(lesson: Lesson) -> list[User]:
    """Who may be named to mark beside the lecturer: second markers first, then other lecturers."""
    rows = User.objects.filter(
        grants__role__in=(SECOND_MARKER, LECTURER), grants__until_on=None, is_active=True
    )
    rows = rows.exclude(pk__in=[pk for pk in (lesson.lecturer_id, lesson.cover_id) if pk])
    found: dict[int, User] = {}
    for user in rows.order_by("-grants__role", "name"):
        found.setdefault(user.pk, user)
    return list(found.values())


def without_sheet(lesson: Lesson, rows: Iterable[SittingRow]) -> list[str]:
    """The names of learners who are placed and there and have no mark sheet yet."""
    have, absent = {row.sitting.student_id for row in rows}, absent_from(lesson)
    return [
        row.student.user.name
        for row in placed_learners(lesson)
        if row.student_id not in have and row.student_id not in absent
    ]


def time_now() -> datetime:
    """The time on the college's wall."""
    return local_now(the_college())


def bench_of(row: SittingRow) -> int:
    """The number of the learner's bench; 0 when nobody placed them."""
    return row.bench or benches_of(row.sitting.brief.lesson).get(row.sitting.student_id, 0)


def next_learner(row: SittingRow, part: str) -> Student | None:
    """The learner at the next bench whose sheet of this part is not in; round to the first bench."""
    lesson = row.sitting.brief.lesson
    open_sheets = Sheet.objects.filter(sitting__brief__lesson=lesson, part=part, submitted_at=None)
    waiting = {
        sheet.sitting.student_id: sheet.sitting.student
        for sheet in open_sheets.select_related("sitting__student__user")
    }
    benches = benches_of(lesson)
    order = sorted(
        {*waiting, row.sitting.student_id}, key=lambda student: (benches.get(student, 999), student)
    )
    here = order.index(row.sitting.student_id)
    after = [*order[here + 1 :], *order[:here]]
    return waiting[after[0]] if after else None


def brief_state(lesson: Lesson) -> str:
    """How far the brief of a lesson is: "none", "written" (waits to be checked) or "checked"."""
    checked = list(Brief.objects.filter(lesson=lesson).values_list("checked_by", flat=True))
    if not checked:
        return "none"
    return "checked" if all(checked) else "written"
