"""Feedback read: what is drafted for a sitting, what was handed back, when it is practised next."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.db.models import OuterRef, Subquery

from assessments.feedback.advice import Advice, FaultKnown, TechniqueKnown, drafted, next_time
from assessments.feedback.content import DraftData, merged, read_draft
from assessments.feedback.models import Draft, HandedBack
from assessments.marking.entry import current
from assessments.marking.models import Sitting
from assessments.marking.queries import SittingRow, faults_of, rows_of, sitting_rows, with_sheets
from curriculum.people.models import Student
from curriculum.techniques.models import Technique
from curriculum.wording import short_date
from kitchen.lessons.models import Dish, Lesson

#: So many later lessons of a group are looked through for the next practice of a technique.
LESSONS_AHEAD = 12


@dataclass(frozen=True, slots=True)
class Drafted:
    """The feedback of one sitting before it is handed back.

    ``faults`` are those that may be chosen, by technique.
    """

    row: SittingRow
    advice: tuple[Advice, ...]
    draft: DraftData
    next_time: str
    faults: dict[str, list[FaultKnown]]


def drafted_for(row: SittingRow) -> Drafted:
    """The advice of a sitting, drafted from its marks and faults and merged with what was written."""
    data = row.data
    codes = [subject.code for subject in data.subjects]
    known = known_faults(codes)
    by_code = {fault.code: fault for each in known.values() for fault in each}
    made = drafted(data.scheme, data.card(*data.record_parts()), _seen(row), by_code, known_techniques(codes))
    kept = read_draft(getattr(getattr(row.sitting, "draft", None), "content", None))
    again = next_practice(row.sitting.brief.lesson, codes)
    advice = tuple(replace(each, again=again.get(each.technique, "")) for each in merged(made, kept))
    return Drafted(row, advice, kept, kept.next_time or next_time(advice), known)


def _seen(row: SittingRow) -> dict[str, tuple[str, ...]]:
    """The faults tapped for each place on the sheets that count, each once."""
    found: dict[str, dict[str, None]] = {}
    for sheet in row.data.sheets:
        if sheet.part in row.data.record_parts():
            for place, entry in current(sheet.entries).items():
                found.setdefault(place, {}).update(dict.fromkeys(entry.faults))
    return {place: tuple(codes) for place, codes in found.items()}


def known_faults(codes: Iterable[str]) -> dict[str, list[FaultKnown]]:
    """The faults of the catalogue by technique."""
    return {
        technique: [FaultKnown(row.code, technique, row.seen, row.cause, row.remedy) for row in rows]
        for technique, rows in faults_of(codes).items()
    }


def known_techniques(codes: Iterable[str]) -> dict[str, TechniqueKnown]:
    """Techniques with their cues by code."""
    rows = Technique.objects.filter(code__in=list(codes))
    return {row.code: TechniqueKnown(row.code, row.name, row.cue) for row in rows}


def next_practice(lesson: Lesson, codes: Iterable[str]) -> dict[str, str]:
    """For each technique the next booked lesson of the same group that practises it, in words."""
    wanted = set(codes)
    dishes = (
        Dish.objects.filter(lesson__group=lesson.group_id, lesson__on__gt=lesson.on)
        .exclude(lesson__state=Lesson.State.CANCELLED)
        .select_related("lesson", "version")
        .order_by("lesson__on", "lesson__starts")[:LESSONS_AHEAD]
    )
    found: dict[str, str] = {}
    for dish in dishes if wanted else ():
        words = f"{dish.lesson.title}, {short_date(dish.lesson.on, lesson.on)}"
        for step in (dish.version.sheet or {}).get("steps", ()):
            for code in wanted & set(step.get("techniques", ())):
                found.setdefault(code, words)
    return found


def feedback_rows(lesson: Lesson) -> list[tuple[SittingRow, HandedBack | None, Draft | None]]:
    """Every sitting of a lesson with what was handed back and what is drafted; fixed queries."""
    rows = sitting_rows(lesson)
    sittings = [row.sitting.pk for row in rows]
    back = {each.sitting_id: each for each in latest_handed_back().filter(sitting__in=sittings)}
    drafts = {each.sitting_id: each for each in Draft.objects.filter(sitting__in=sittings)}
    return [(row, back.get(row.sitting.pk), drafts.get(row.sitting.pk)) for row in rows]


def latest_handed_back() -> object:
    """The newest handing back of each sitting."""
    newest = HandedBack.objects.filter(sitting=OuterRef("sitting")).order_by("-number").values("pk")[:1]
    return HandedBack.objects.filter(pk=Subquery(newest)).select_related("sitting__brief__lesson", "by")


def handed_back_to(student: Student) -> list[HandedBack]:
    """What a learner was given, the newest lesson first."""
    rows = latest_handed_back().filter(sitting__student=student)
    return list(rows.order_by("-sitting__brief__lesson__on", "-pk"))


def handed_back_of(sitting: Sitting) -> HandedBack | None:
    """The newest handing back of one sitting, or None."""
    return latest_handed_back().filter(sitting=sitting).first()


def row_of(sitting: Sitting) -> SittingRow:
    """One sitting read afresh."""
    return rows_of(with_sheets(Sitting.objects.filter(pk=sitting.pk)))[0]
