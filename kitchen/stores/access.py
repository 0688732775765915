"""Who may look at kits and stock, and who acts on them: fetch or refuse.

Stores and technician act; the lecturer of a lesson, and who covers it, read its kits and
submit its requisition. Not there or not yours is 404, a role that never may is 403.
"""

from dataclasses import dataclass

from django.http import Http404

from curriculum.foods.models import Food
from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import KITCHEN_HANDS, MANAGER
from kitchen.lessons.access import lesson_for, lesson_to_issue, lesson_to_supply, lesson_to_teach, teaches
from kitchen.lessons.models import Lesson
from kitchen.stores.made.queries import foods_to_make
from kitchen.stores.models import KitSet, Lot, Movement, Requisition

#: What the pages of one lot read with it.
OF_A_LOT = ("food__keeping", "supplier", "label_read_by", "made_in")


@dataclass(frozen=True, slots=True)
class Acts:
    """What somebody may do with the kits of a lesson."""

    supply: bool
    submit: bool


def kits_for(by: User, code: str) -> tuple[Lesson, Acts]:
    """A lesson whose kits the person may read, and what they may do with them."""
    lesson = lesson_to_supply(by, code)
    return lesson, Acts(supply=bool(roles_of(by) & KITCHEN_HANDS), submit=teaches(by, lesson))


def stores_of_lesson(by: User, code: str) -> tuple[Lesson, Acts]:
    """A lesson whose issues, returns and cost the person may read: who reads its kits, and the manager."""
    if MANAGER in roles_of(by):
        return lesson_for(by, code), Acts(supply=bool(roles_of(by) & KITCHEN_HANDS), submit=False)
    return kits_for(by, code)


def kits_to_supply(by: User, code: str) -> Lesson:
    """A lesson for which stores or technician act."""
    return lesson_to_issue(by, code)


def kit_set_to_supply(by: User, code: str) -> KitSet:
    """The accepted kits of a lesson, for who acts on them; 404 when none are made."""
    return _accepted(lesson_to_issue(by, code))


def kit_set_to_read(by: User, code: str) -> KitSet:
    """The accepted kits of a lesson, for who may read them; 404 when none are made."""
    return _accepted(lesson_to_supply(by, code))


def lesson_to_ask_for(by: User, code: str) -> Lesson:
    """A lesson whose requisition the person submits: its lecturer or cover."""
    return lesson_to_teach(by, code)


def requisition_to_decide(by: User, code: str) -> Requisition:
    """The submitted requisition of a lesson, for the stores; 404 when none waits."""
    lesson = lesson_to_issue(by, code)
    row = Requisition.objects.filter(lesson=lesson, state=Requisition.State.SUBMITTED).first()
    if row is None:
        raise Http404("No requisition waits.")
    return row


def requisition_to_query(by: User, code: str) -> Requisition:
    """The latest requisition of a lesson, whatever became of it: a question that comes late is not lost."""
    lesson = lesson_to_issue(by, code)
    row = Requisition.objects.filter(lesson=lesson).order_by("-number").first()
    if row is None:
        raise Http404("No requisition is there.")
    return row


def keeper_of_stock(by: User) -> None:
    """Refuse (403) whoever does not keep the stores."""
    demand_role(by, *KITCHEN_HANDS)


def lot_for(by: User, code: str) -> Lot:
    """One lot, for stores and technician."""
    keeper_of_stock(by)
    lot = Lot.objects.filter(code=code).select_related(*OF_A_LOT).first()
    if lot is None:
        raise Http404("No such lot.")
    return lot


def made_lot_for(by: User, lesson: str, code: str) -> Lot:
    """A lot made for a lesson, for stores and technician; 404 for one of another lesson."""
    found = lesson_to_issue(by, lesson)
    lot = Lot.objects.filter(code=code, made_in=found).select_related("food__made_from").first()
    if lot is None:
        raise Http404("No such made lot.")
    lot.made_in = found
    return lot


def food_to_make(by: User, lesson: str, code: str) -> tuple[Lesson, Food]:
    """A lesson, and a food that its recipes take out of whole pieces; 404 for any other food."""
    found = lesson_to_issue(by, lesson)
    food = foods_to_make(found).filter(code=code).first()
    if food is None:
        raise Http404("Nothing of this lesson is made of it.")
    return found, food


def issue_for(by: User, code: str, number: int) -> Movement:
    """One issue out of a lot, by its number in the lot's ledger."""
    lot = lot_for(by, code)
    row = (
        Movement.objects.filter(lot=lot, number=number, kind=Movement.Kind.ISSUE, made_part=None)
        .select_related("lot__food")
        .first()
    )
    if row is None:
        raise Http404("No such issue.")
    return row


def movement_for(by: User, code: str, number: int) -> Movement:
    """One movement of a lot, by its number in the lot's ledger."""
    row = (
        Movement.objects.filter(lot=lot_for(by, code), number=number)
        .select_related("lot__food", "by")
        .first()
    )
    if row is None:
        raise Http404("No such movement.")
    return row


def food_for(by: User, code: str) -> Food:
    """One food whose label is read, for stores and technician."""
    keeper_of_stock(by)
    food = Food.objects.filter(code=code, from_tap=False).first()
    if food is None:
        raise Http404("No such food.")
    return food


def _accepted(lesson: Lesson) -> KitSet:
    kit_set = (
        KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED)
        .select_related("lesson__room", "lesson__group", "lesson__lecturer")
        .first()
    )
    if kit_set is None:
        raise Http404("No kits are made yet.")
    return kit_set
