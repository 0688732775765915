"""What becomes of a requisition: drawn up, submitted, queried, answered, approved, withdrawn.

For the requisition page and the command that loads a college. The rules of every action of
the stores hold here too (``kitchen.stores.actions``).
"""

from collections.abc import Iterable
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson
from kitchen.stores import queries
from kitchen.stores.actions import lesson_locked
from kitchen.stores.models import Requisition, RequisitionLine
from kitchen.stores.proposal import Question, inputs_of
from kitchen.stores.requisitions.reasons import Asked, asked_for
from kitchen.stores.tools.actions import ask_for_equipment, demand_loans

State = Requisition.State
#: A requisition in one of these states is nobody's word any more.
ENDED = (State.SUPERSEDED, State.WITHDRAWN)


@transaction.atomic
def submit_requisition(*, lesson: Lesson, by: User, key: UUID | None = None, reply: str = "") -> Requisition:
    """Draw a requisition up from what the kits need today, and submit it to the stores.

    What stood before and was not approved is superseded; one that is approved stays in force
    until this one, which amends it, is approved. Whole pieces are pooled over the class, weights
    are the sums of the kits. RuleBroken "nothing_needed", "lesson_cancelled".
    """

    def do() -> dict:
        lesson_locked(lesson)
        question = queries.kit_question(lesson)
        asked = asked_for(question) if question is not None else ()
        if not asked:
            raise RuleBroken(
                "nothing_needed", "The lesson needs nothing yet. Choose the dish and give out the places."
            )
        standing = Requisition.objects.filter(lesson=lesson).exclude(state__in=(*ENDED, State.APPROVED))
        standing.update(state=State.SUPERSEDED)
        return {"requisition": _keep(lesson, question, asked, by, reply).pk}

    said = {"lesson": lesson.code} | ({"reply": reply} if reply else {})
    answer = once(key=key, action="submit_requisition", by=by, said=said, do=do)
    return Requisition.objects.get(pk=answer["requisition"])


@transaction.atomic
def approve_requisition(*, requisition: Requisition, by: User) -> Requisition:
    """Approve a submitted requisition with its loans; the one approved before is superseded.

    RuleBroken "not_submitted", "lesson_cancelled", "lent_meanwhile".
    """
    lesson_locked(requisition.lesson)
    row = _waiting(requisition)
    demand_loans(row)
    Requisition.objects.filter(lesson=row.lesson_id, state=State.APPROVED).update(state=State.SUPERSEDED)
    row.state, row.approved_by, row.approved_at, row.query = State.APPROVED, by, timezone.now(), ""
    row.save(update_fields=["state", "approved_by", "approved_at", "query"])
    return row


@transaction.atomic
def query_requisition(*, requisition: Requisition, words: str, by: User) -> Requisition:
    """Send a submitted requisition back to its lecturer with a question. RuleBroken "not_submitted"."""
    row = _waiting(requisition)
    row.state, row.query, row.reply = State.QUERIED, f"{words} ({by.printed_name})"[:300], ""
    row.save(update_fields=["state", "query", "reply"])
    return row


@transaction.atomic
def reply_to_query(*, requisition: Requisition, words: str, by: User) -> Requisition:
    """Answer the stores' question and submit the same requisition again. RuleBroken "not_queried"."""
    row = Requisition.objects.select_for_update().get(pk=requisition.pk)
    if row.state != State.QUERIED:
        raise RuleBroken(
            "not_queried",
            f"This requisition is {row.get_state_display()}; the stores ask nothing about it.",
        )
    row.state, row.reply = State.SUBMITTED, f"{words} ({by.printed_name})"[:300]
    row.save(update_fields=["state", "reply"])
    return row


@transaction.atomic
def withdraw_requisition(*, requisition: Requisition, why: str, by: User) -> Requisition:
    """Take back a requisition that nobody has approved. One approved before stays in force.

    RuleBroken "not_open": an approved one is amended, or goes with its lesson.
    """
    row = Requisition.objects.select_for_update().get(pk=requisition.pk)
    if row.state not in (State.SUBMITTED, State.QUERIED):
        raise RuleBroken(
            "not_open",
            f"This requisition is {row.get_state_display()}. Change the lesson and submit the difference, "
            "or cancel the lesson.",
        )
    row.state, row.reply = State.WITHDRAWN, f"{why} ({by.printed_name})"[:300]
    row.save(update_fields=["state", "reply"])
    return row


def _keep(lesson: Lesson, question: Question, asked: Iterable[Asked], by: User, reply: str) -> Requisition:
    lines = tuple(asked)
    foods = {food.code: food for food in Food.objects.filter(code__in={each.food for each in lines})}
    row = Requisition.objects.create(
        lesson=lesson,
        number=queries.next_number(Requisition.objects.filter(lesson=lesson)),
        state=State.SUBMITTED,
        inputs=inputs_of(question),
        amends=Requisition.objects.filter(lesson=lesson, state=State.APPROVED).first(),
        reply=f"{reply} ({by.printed_name})"[:300] if reply else "",
        by=by,
        submitted_at=timezone.now(),
    )
    RequisitionLine.objects.bulk_create(
        RequisitionLine(
            requisition=row,
            food=foods[each.food],
            milligrams=each.milligrams,
            pieces=each.pieces,
            why=each.why,
        )
        for each in lines
    )
    ask_for_equipment(row)
    return row


def _waiting(requisition: Requisition) -> Requisition:
    row = Requisition.objects.select_for_update().get(pk=requisition.pk)
    if row.state != State.SUBMITTED:
        raise RuleBroken(
            "not_submitted",
            f"This requisition is {row.get_state_display()}. "
            "Only one that is submitted is approved or queried.",
        )
    return row
