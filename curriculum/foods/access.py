"""Who may look at the foods of the book and add to them."""

from django.http import Http404

from curriculum.foods.models import Food
from curriculum.people.access import demand_role, demand_staff, roles_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER, STORES, TECHNICIAN

WRITERS = (LECTURER, STORES, TECHNICIAN)


def demand_reader(user: User) -> frozenset[str]:
    """Refuse (403) whoever is not staff."""
    return demand_staff(user)


def demand_writer(user: User) -> frozenset[str]:
    """Refuse (403) whoever does not add foods: lecturers, stores and technicians do."""
    return demand_role(user, *WRITERS)


def may_write(user: User) -> bool:
    """Whether this person adds foods."""
    return bool(roles_of(user) & {*WRITERS})


def food_for(user: User, code: str) -> Food:
    """One food for staff to look at, a retired one as well; 404 when there is none of that code."""
    demand_reader(user)
    food = Food.objects.filter(code=code).select_related("label_read_by", "made_from").first()
    if food is None:
        raise Http404("No such food.")
    return food


def food_to_write(user: User, code: str) -> Food:
    """One food for whoever writes foods, labels, yield tests and prices; 403 for other staff."""
    demand_writer(user)
    return food_for(user, code)
