"""What becomes of a requisition: drawn up from the kits, submitted, queried, approved.

For the requisition page and the command that loads a college. The rules of every action of
the stores hold here too (``kitchen.stores.actions``).
"""

from collections.abc import Iterator
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
from kitchen.stores.proposal import for_trays, prepare

State = Requisition.State
#: Why a line of a requisition is asked for: the kits of the lesson, eggs and the like pooled.
FOR_THE_KITS = "kits of the lesson"
#: What is made before for the demonstration, beyond that.
FOR_TRAYS = "stage trays of the demonstration"


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
        trays = for_trays(question) if question is not None else {}
        if not needs:
            raise RuleBroken(
                "nothing_needed", "The lesson needs nothing yet. Choose the dish and give out the places."
            )
        Requisition.objects.filter(lesson=lesson).exclude(state=State.APPROVED).update(state=State.SUPERSEDED)
        return {"requisition": _keep(lesson, needs, trays, by).pk}

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


def _keep(
    lesson: Lesson, needs: tuple[Need, ...], trays: dict[str, tuple[int, int]], by: User
) -> Requisition:
    foods = {food.code: food for food in Food.objects.filter(code__in=[need.food for need in needs])}
    row = Requisition.objects.create(
        lesson=lesson,
        number=queries.next_number(Requisition.objects.filter(lesson=lesson)),
        state=State.SUBMITTED,
        by=by,
        submitted_at=timezone.now(),
    )
    RequisitionLine.objects.bulk_create(
        line for need in needs for line in _lines(row, foods[need.food], need, trays.get(need.food, (0, 0)))
    )
    return row


def _lines(row: Requisition, food: Food, need: Need, for_trays: tuple[int, int]) -> Iterator[RequisitionLine]:
    """One food: what the kits need of it, and what the stage trays need beyond that."""
    milligrams, pieces = for_trays
    kits = need.ordered_milligrams - milligrams
    kit_pieces = None if need.pooled_pieces is None else need.pooled_pieces - pieces
    tray_pieces = None if need.pooled_pieces is None else pieces
    for why, amount, count in ((FOR_THE_KITS, kits, kit_pieces), (FOR_TRAYS, milligrams, tray_pieces)):
        if amount > 0:
            yield RequisitionLine(requisition=row, food=food, milligrams=amount, pieces=count, why=why)


def _waiting(requisition: Requisition) -> Requisition:
    row = Requisition.objects.select_for_update().get(pk=requisition.pk)
    if row.state != State.SUBMITTED:
        raise RuleBroken(
            "not_submitted",
            f"This requisition is {row.get_state_display()}. "
            "Only one that is submitted is approved or queried.",
        )
    return row
