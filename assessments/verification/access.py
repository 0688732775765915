"""Who draws and reads samples: the verifier draws, the external examiner reads what was drawn."""

from django.http import Http404

from assessments.marking.queries import SittingRow
from assessments.verification.models import Sample, SampleItem
from assessments.verification.queries import items_of
from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import EXTERNAL, VERIFIER


def demand_sampler(by: User) -> None:
    """Samples are read by the verifier and the external examiner."""
    demand_role(by, VERIFIER, EXTERNAL)


def demand_drawer(by: User) -> None:
    """Only the verifier draws."""
    demand_role(by, VERIFIER)


def may_draw(by: User) -> bool:
    """Whether the page offers to draw."""
    return VERIFIER in roles_of(by)


def sample_for(by: User, code: str) -> Sample:
    """A sample to read, or 404."""
    demand_sampler(by)
    sample = Sample.objects.filter(code=code).select_related("by").first()
    if sample is None:
        raise Http404("No such sample.")
    return sample


def sampled_sitting(by: User, code: str, sitting: str) -> tuple[Sample, SampleItem, SittingRow]:
    """One sitting of a sample; a sitting that was not drawn into it is 404."""
    sample = sample_for(by, code)
    for item, row in items_of(sample):
        if row.sitting.code == sitting:
            return sample, item, row
    raise Http404("Not in this sample.")
