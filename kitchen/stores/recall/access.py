"""Who may trace food: stores and manager everything, a lecturer what reached their own lessons."""

from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER, MANAGER, STORES
from kitchen.lessons.access import teaches
from kitchen.lessons.models import Place
from kitchen.stores.models import Lot
from kitchen.stores.recall.queries import reaches

#: Who sees every lesson, and who holds lots.
WHOLE = frozenset({STORES, MANAGER})


def reader(by: User) -> User | None:
    """None for who sees everything, the lecturer for who sees their own lessons; 403 for all others."""
    held = demand_role(by, LECTURER, *WHOLE)
    return None if held & WHOLE else by


def may_hold(by: User) -> bool:
    """Whether the person holds lots from a recall."""
    return bool(roles_of(by) & WHOLE)


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
