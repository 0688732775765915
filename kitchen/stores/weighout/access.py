"""Who weighs out, and what of a weigh-out there is: fetch or refuse.

Stores and technician weigh. Not there is 404, a role that never may is 403.
"""

from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import KITCHEN_HANDS, LECTURER, MANAGER, STORES
from kitchen.lessons.models import Lesson
from kitchen.stores.access import kit_set_to_supply, kits_to_supply
from kitchen.stores.models import Kit, KitLine, KitSet, Lot
from kitchen.stores.weighout.old_trays.queries import clearable
from kitchen.stores.weighout.order import Stop
from kitchen.stores.weighout.page import WeighOut


def weigh_out_for(by: User, lesson: str) -> KitSet:
    """The accepted kits of a lesson, for who weighs them; 404 when none are made."""
    return kit_set_to_supply(by, lesson)


def lesson_of_old_trays(by: User, lesson: str) -> Lesson:
    """A lesson whose weighed trays are taken apart; kits need not stand for it."""
    return kits_to_supply(by, lesson)


def stop_of(page: WeighOut, code: str) -> Stop:
    """One stop of a weigh-out; 404 when nothing of this is weighed here."""
    stop = page.stop(code)
    if stop is None:
        raise Http404("Nothing of this is weighed here.")
    return stop


def weight_of(kit_set: KitSet, kit: str, food: str) -> None:
    """Refuse (404) a weight that the kits of this lesson do not have."""
    rows = KitLine.objects.filter(kit__kit_set=kit_set, kit__code=kit, food__code=food)
    if not rows.filter(kit__blocked_why="", stock_milligrams__gt=0).exists():
        raise Http404("No such weight.")


def free_from_kit(kit_set: KitSet, code: str) -> None:
    """Refuse (404) a lid for what is no free-from kit of this lesson."""
    rows = Kit.objects.filter(kit_set=kit_set, code=code, blocked_why="")
    if not any(rows.values_list("version__sheet__free_from", flat=True)):
        raise Http404("No such kit.")


def lot_of(code: str) -> Lot:
    """The lot of a pack on the scale."""
    return Lot.objects.get(code=code)


def tray_to_clear(by: User, lesson: str, kit: str) -> Kit:
    """A tray of a lesson that nobody wants any more, or that a label stops; 404 for any other."""
    found = lesson_of_old_trays(by, lesson)
    row = clearable(found).filter(code=kit).select_related("kit_set").first()
    if row is None:
        raise Http404("No such tray.")
    return row


def kit_for_tray(by: User, lesson: str, kit: str) -> Kit:
    """The accepted kit of that code, for a tray that may stand for it."""
    row = Kit.objects.filter(kit_set=weigh_out_for(by, lesson), code=kit).select_related("kit_set").first()
    if row is None:
        raise Http404("No such kit.")
    return row


def reader_of_rule(by: User) -> bool:
    """Whether the person also keeps how the college weighs out; 403 for who never sees a weigh-out."""
    demand_role(by, *KITCHEN_HANDS, LECTURER, MANAGER)
    return bool(roles_of(by) & {STORES, MANAGER})


def keeper_of_rule(by: User) -> None:
    """Refuse (403) whoever does not decide how the college weighs out."""
    demand_role(by, STORES, MANAGER)
