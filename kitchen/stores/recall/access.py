"""Who may trace food, and what each needs for it.

Stores, technician and manager trace everything: the food may stand on any shelf or bench, and whoever
may hold one lot may hold all of a recall. A lecturer traces what reached their own lessons. The sheet
of whom to ask leaves the site with learners' names on it: it is for those who ask them (lecturer,
stores, manager), not for the technician, who clears shelves and benches.
"""

from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER, MANAGER, STORES, TECHNICIAN
from kitchen.lessons.access import teaches
from kitchen.lessons.models import Place
from kitchen.stores.models import Lot
from kitchen.stores.recall.queries import reaches

#: Who sees every lesson, and who holds lots.
WHOLE = frozenset({STORES, TECHNICIAN, MANAGER})
#: Who asks the learners.
ASKS = frozenset({LECTURER, STORES, MANAGER})


def reader(by: User) -> User | None:
    """None for who sees everything, the lecturer for who sees their own lessons; 403 for all others."""
    held = demand_role(by, LECTURER, *WHOLE)
    return None if held & WHOLE else by


def may_hold(by: User) -> bool:
    """Whether the person holds lots from a recall."""
    return bool(roles_of(by) & WHOLE)


def may_ask(by: User) -> bool:
    """Whether the person takes the sheet of whom to ask."""
    return bool(roles_of(by) & ASKS)


def lots_to_ask_about(by: User, codes: str) -> list[Lot]:
    """The lots of a recall, for who asks the learners."""
    demand_role(by, *ASKS)
    return lots_to_trace(by, codes)


def lots_to_trace(by: User, codes: str) -> list[Lot]:
    """The lots of a recall by their codes; 404 when one is not there, or never reached them."""
    only = reader(by)
    wanted = set(codes.split(","))
    lots = list(Lot.objects.filter(code__in=wanted).order_by("code"))
    if len(lots) != len(wanted) or (only is not None and not reaches(lots, only)):
        raise Http404("No such lots.")
    return lots


def lots_to_hold(by: User, codes: str) -> list[Lot]:
    """The lots of a recall, for who may hold them."""
    demand_role(by, *WHOLE)
    return lots_to_trace(by, codes)


def place_to_trace(by: User, code: str) -> Place:
    """One bench of one lesson, back from its plate; another lecturer's is 404."""
    only = reader(by)
    place = Place.objects.filter(code=code).select_related("shift__lesson", "bench").first()
    if place is None or (only is not None and not teaches(by, place.shift.lesson)):
        raise Http404("No such bench.")
    return place
