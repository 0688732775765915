"""Who reads what was learned, and who decides: fetch or refuse.

Lecturers and stores decide, since a figure changes what benches are given and what is asked for;
technician and programme manager read. Not there is 404, a role that never may is 403.
"""

from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER, MANAGER, STORES, TECHNICIAN
from kitchen.stores.learning.evidence import Proposal
from kitchen.stores.learning.models import KeptFigure
from kitchen.stores.learning.page import OF_NOTHING, SLUGS
from kitchen.stores.learning.queries import Learned, learned

DECIDERS = (LECTURER, STORES)


def reader(by: User) -> None:
    """Refuse (403) whoever does not read what was learned."""
    demand_role(by, LECTURER, STORES, TECHNICIAN, MANAGER)


def may_decide(by: User) -> bool:
    """Whether this person accepts and declines."""
    return bool(roles_of(by) & {*DECIDERS})


def may_open_lessons(by: User) -> bool:
    """Whether this person may open what every lesson used and cost, and not only of their own."""
    return bool(roles_of(by) & {STORES, TECHNICIAN, MANAGER})


def decider(by: User) -> None:
    """Refuse (403) whoever does not decide."""
    demand_role(by, *DECIDERS)


def proposal_for(by: User, kind: str, of: str, food: str) -> tuple[Learned, Proposal]:
    """One proposal with everything it was read with; 404 when nothing teaches it."""
    reader(by)
    wanted = {slug: code for code, slug in SLUGS.items()}.get(kind)
    if wanted is None:
        raise Http404("No such kind of figure.")
    read = learned()
    key = (wanted, food, "" if of == OF_NOTHING else of)
    found = next((each for each in read.proposals if (each.kind, each.food, each.of) == key), None)
    if found is None:
        raise Http404("Nothing was learned of it.")
    return read, found


def figure_to_take_back(by: User, number: int) -> KeptFigure:
    """One decision that stands, for who decides; 404 when it stands no more."""
    decider(by)
    rows = KeptFigure.objects.select_related("food", "recipe", "technique", "by")
    standing = (KeptFigure.State.ACCEPTED, KeptFigure.State.DECLINED)
    row = rows.filter(pk=number, state__in=standing).first()
    if row is None:
        raise Http404("No such decision stands.")
    return row
