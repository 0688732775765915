"""Who counts small equipment: stores and technician everywhere, a lecturer for their own lessons.

Every member of staff may see what a place has. Not yours or not there is 404, a role that
never may is 403.
"""

from django.http import Http404

from curriculum.people.access import demand_staff, roles_of
from curriculum.people.models import User
from curriculum.people.roles import KITCHEN_HANDS
from kitchen.lessons.access import lesson_to_issue, lesson_to_supply
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Equipment
from kitchen.stores.access import keeper_of_stock
from kitchen.stores.tools.counting import Handed
from kitchen.stores.tools.queries import counts


def lesson_to_count(by: User, code: str) -> Lesson:
    """A lesson whose equipment the person counts out and in: its lecturer, cover, stores, technician."""
    return lesson_to_supply(by, code)


def may_keep(by: User) -> bool:
    """Whether the person writes things off and corrects how many there are."""
    return bool(roles_of(by) & KITCHEN_HANDS)


def line_to_write_off(by: User, code: str, thing: int, place: int) -> tuple[Lesson, Handed]:
    """What a lesson has still out of one thing at one bench, for stores and technician; else 404."""
    lesson = lesson_to_issue(by, code)
    line = next((each for each in counts(lesson).open if (each.thing, each.place) == (thing, place)), None)
    if line is None:
        raise Http404("Nothing of it is out.")
    return lesson, line


def reader_of_equipment(by: User) -> bool:
    """Staff may see what each place has; whether this one may also correct it."""
    demand_staff(by)
    return may_keep(by)


def things_named(by: User, item: str) -> list[Equipment]:
    """A thing in every place that has had it; 404 when none has."""
    reader_of_equipment(by)
    rows = list(Equipment.objects.filter(item=item).select_related("room").order_by("room__name"))
    if not rows:
        raise Http404("No such thing.")
    return rows


def thing_to_keep(by: User, item: str, room: str) -> Equipment:
    """A thing in one place, for stores and technician."""
    keeper_of_stock(by)
    row = Equipment.objects.filter(item=item, room__code=room).select_related("room").first()
    if row is None:
        raise Http404("No such thing there.")
    return row
