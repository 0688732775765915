"""Writing a draft, and handing feedback back: frozen, once, by the lesson's own lecturer."""

from collections.abc import Iterable
from uuid import UUID

from django.db import transaction

from assessments.feedback.advice import about_the_person, lacks
from assessments.feedback.content import (
    DraftData,
    HandedBackData,
    lines_given,
    write_draft,
    write_handed_back,
)
from assessments.feedback.models import Draft, HandedBack
from assessments.feedback.queries import Drafted, drafted_for, handed_back_of, row_of
from assessments.marking.actions import close_sitting
from assessments.marking.models import Sitting
from assessments.schemes.figures import points
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson


@transaction.atomic
def write_feedback(*, sitting: Sitting, draft: DraftData, by: User) -> Draft:
    """Keep what a lecturer wrote; the learner sees nothing of it.

    RuleBroken: "already_handed_back", "about_the_person".
    """
    Sitting.objects.select_for_update().get(pk=sitting.pk)
    if handed_back_of(sitting) is not None:
        raise RuleBroken("already_handed_back", "This feedback was handed back and stays as it was given.")
    _demand_about_the_plate([draft.next_time, draft.note, *_texts(draft)])
    kept, _ = Draft.objects.update_or_create(
        sitting=sitting, defaults={"content": write_draft(draft), "by": by}
    )
    return kept


def _texts(draft: DraftData) -> list[str]:
    return [text for words in draft.words for text in (words.seen, words.why, words.do)]


def _demand_about_the_plate(texts: Iterable[str]) -> None:
    for text in texts:
        found = about_the_person(text)
        if found:
            raise RuleBroken(
                "about_the_person",
                f"“{found}” is about the person. Say what was seen on the plate or at the bench instead.",
            )


def hand_back(*, sitting: Sitting, by: User, key: UUID | None = None) -> HandedBack:
    """Hand the feedback of a sitting back: from now on the learner sees it, and it never changes.

    The marks of the sitting stand from then on. Handing back twice changes nothing.
    RuleBroken: "not_yours_to_hand_back" (a cover teaches, the lecturer hands back),
    "not_submitted", "marks_differ", "advice_unfinished" names what each low mark lacks,
    "about_the_person".
    """

    def do() -> dict:
        row = row_of(Sitting.objects.select_for_update().get(pk=sitting.pk))
        before = handed_back_of(sitting)
        if before is not None:
            return {"handed_back": before.pk}
        if row.sitting.brief.lesson.lecturer_id != by.pk:
            raise RuleBroken("not_yours_to_hand_back", "Only the lecturer of the lesson hands feedback back.")
        close_sitting(sitting=row.sitting, by=by)
        drafted = drafted_for(row)
        _demand_finished(drafted)
        content = write_handed_back(content_of(drafted))
        made = HandedBack.objects.create(sitting=row.sitting, number=1, content=content, by=by)
        return {"handed_back": made.pk}

    answer = once(key=key, action="feedback.hand_back", by=by, said={"sitting": sitting.pk}, do=do)
    return HandedBack.objects.get(pk=answer["handed_back"])


def _demand_finished(drafted: Drafted) -> None:
    wanting = [words for advice in drafted.advice for words in lacks(advice)]
    if wanting:
        raise RuleBroken("advice_unfinished", f"Not handed back. {' '.join(wanting)}", wanting=wanting)
    _demand_about_the_plate(
        [drafted.next_time, drafted.draft.note]
        + [text for advice in drafted.advice for text in (advice.seen, advice.why, advice.do)]
    )


def content_of(drafted: Drafted) -> HandedBackData:
    """Everything that the learner is given, as data."""
    data, sitting = drafted.row.data, drafted.row.sitting
    outcome = data.record()
    lesson, markers = sitting.brief.lesson, [sheet.marker for sheet in data.sheets]
    most = data.scheme.total_milli_points
    return HandedBackData(
        title=lesson.title,
        dish=sitting.brief.version.recipe.title,
        cooked_on=lesson.on.isoformat(),
        learner=sitting.student.user.printed_name,
        scheme=data.scheme.name,
        total="" if outcome.milli_total is None else points(outcome.milli_total),
        most=points(most) if most and outcome.milli_total is not None else "",
        band=outcome.band or "",
        next_time=drafted.next_time,
        note=drafted.draft.note,
        practise=tuple(each for each in drafted.advice if each.kind == "practise"),
        well=tuple(each for each in reversed(drafted.advice) if each.kind == "well"),
        lines=lines_given(outcome),
        remarks=outcome.remarks,
        marker=markers[0] if markers else "",
        beside=tuple(markers[1:]),
    )


def hand_back_all(*, lesson: Lesson, by: User) -> tuple[list[HandedBack], list[str]]:
    """Hand back every sitting of a lesson that is ready; those that are not are named with why.

    Each sitting is its own transaction: one that is not ready holds nobody up.
    """
    done, refused = [], []
    sittings = Sitting.objects.filter(brief__lesson=lesson).select_related("student__user")
    for sitting in sittings.order_by("student__user__name"):
        try:
            done.append(hand_back(sitting=sitting, by=by))
        except RuleBroken as error:
            refused.append(f"{sitting.student.user.name}: {error.message}")
    return done, refused
