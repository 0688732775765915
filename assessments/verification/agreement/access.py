"""Who reads how well markers agree: the verifier, the programme manager, the external examiner."""

from django.http import Http404

from assessments.schemes.models import Scheme
from curriculum.people.access import demand_role
from curriculum.people.models import User
from curriculum.people.roles import EXTERNAL, MANAGER, VERIFIER


def demand_reader(by: User) -> None:
    """Figures about markers are for those who check marking."""
    demand_role(by, VERIFIER, MANAGER, EXTERNAL)


def scheme_for(by: User, code: str) -> Scheme:
    """A scheme, or 404."""
    demand_reader(by)
    scheme = Scheme.objects.filter(code=code).first()
    if scheme is None:
        raise Http404("No such scheme.")
    return scheme
