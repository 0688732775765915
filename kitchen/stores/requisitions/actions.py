"""What becomes of a requisition: drawn up from the kits, submitted, queried, approved.

For the requisition page and the command that loads a college. The rules of every action of
the stores hold here too (``kitchen.stores.actions``).
"""

from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson
from kitchen.stores import queries
from kitchen.stores.models import Requisition, RequisitionLine
from kitchen.stores.needs import Need
from kitchen.stores.proposal import prepare

State = Requisition.State
#: Why a line of a requisition is asked for: the kits of the lesson, eggs and the like pooled.
FOR_THE_KITS = "kits of the lesson"


@transaction.atomic
def submit_requisition(*, lesson: Lesson, by: User, key: UUID | None = None) -> Requisition:
    """Draw a requisition up from what the kits need today, and submit it to the stores.

    What stood before and was not approved is superseded. Whole pieces are pooled over the
    class, weights are the sums of the kits. RuleBroken "nothing_needed".
    """

    def do() -> dict:
        Lesson.objects.select_for_update().get(pk=lesson.pk)
        question = queries.kit_question(lesson)
        needs = prepare(question).needs if question is not None else ()
        if not needs:
            raise RuleBroken(
                "nothing_needed", "The lesson needs nothing yet. Choose the dish and give out the places."
            )
        Requisition.objects.filter(lesson=lesson).exclude(state=State.APPROVED).update(state=State.SUPERSEDED)
        return {"requisition": _keep(lesson, needs, by).pk}

    answer = once(key=key, action="submit_requisition", by=by, said={"lesson": lesson.code}, do=do)
    return Requisition.objects.get(pk=answer["requisition"])


@transaction.atomic
def approve_requisition(*, requisition: Requisition, by: User) -> Requisition:
    """Approve a submitted requisition; the one approved before is superseded. RuleBroken "not_submitted"."""
    row = _waiting(requisition)
    Requisition.objects.filter(lesson=row.lesson_id, state=State.APPROVED).update(state=State.SUPERSEDED)
    row.state, row.approved_by, row.approved_at, row.query = State.APPROVED, by, timezone.now(), ""
    row.save(update_fields=["state", "approved_by", "approved_at", "query"])
    return row


@transaction.atomic
def query_requisition(*, requisition: Requisition, words: str, by: User) -> Requisition:
    """Send a submitted requisition back to its lecturer with a question. RuleBroken "not_submitted"."""
    row = _waiting(requisition)
    row.state, row.query = State.QUERIED, f"{words} ({by.printed_name})"[:300]
    row.save(update_fields=["state", "query"])
    return row


def _keep(lesson: Lesson, needs: tuple[Need, ...], by: User) -> Requisition:
    foods = {food.code: food for food in Food.objects.filter(code__in=[need.food for need in needs])}
    row = Requisition.objects.create(
        lesson=lesson,
        number=queries.next_number(Requisition.objects.filter(lesson=lesson)),
        state=State.SUBMITTED,
        by=by,
        submitted_at=timezone.now(),
    )
    RequisitionLine.objects.bulk_create(
        RequisitionLine(
            requisition=row,
            food=foods[need.food],
            milligrams=need.ordered_milligrams,
            pieces=need.pooled_pieces,
            why=FOR_THE_KITS,
        )
        for need in needs
    )
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
