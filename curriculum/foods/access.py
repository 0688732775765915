"""Who may look at the foods of the book and add to them."""

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
