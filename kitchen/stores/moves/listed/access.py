"""Who may read and keep the lists of reasons, and who may read what was thrown away.

Stores, technician and manager read both: they weigh the waste or answer for its cost. The lists are
kept by stores and manager. A lecturer reads the waste of a lesson on the lesson's own page.
"""

from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import MANAGER, STORES, TECHNICIAN
from kitchen.stores.moves.listed.queries import reasons_of

KEEPERS = frozenset({STORES, MANAGER})


def reader(by: User) -> None:
    """Refuse (403) whoever neither weighs waste nor answers for it."""
    demand_role(by, STORES, TECHNICIAN, MANAGER)


def keeper(by: User) -> None:
    """Refuse (403) whoever does not keep the lists."""
    demand_role(by, *KEEPERS)


def may_keep(by: User) -> bool:
    """Whether the person keeps the lists."""
    return bool(roles_of(by) & KEEPERS)


def reason_to_keep(by: User, which: str, code: str) -> tuple[str, str]:
    """A reason by its list and code; 404 for one that no list has."""
    keeper(by)
    try:
        codes = {each.code for each in reasons_of(which)}
    except KeyError as error:
        raise Http404("No such list.") from error
    if code not in codes:
        raise Http404("No such reason.")
    return which, code
