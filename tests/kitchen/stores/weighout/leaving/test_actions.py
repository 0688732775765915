"""What must be right at the scale before kits leave: asked in as many queries for few kits as for many."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.errors import RuleBroken
from kitchen.stores.models import Kit
from kitchen.stores.weighout.leaving.actions import demand_checked
from kitchen.stores.weighout.models import AllTheSame
from tests.builders.stores import college_lots, kits_made, quiche_stage
from tests.builders.weighout import weighed_at, whole_kits_lidded

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def a_set(benches):
    stage = quiche_stage(benches=benches, ahead=())
    college_lots()
    return stage, kits_made(stage)


def demanded(stage, kit_set, kits=None, why=""):
    """Queries that it takes to let these kits of the set leave, all of them where none are named."""
    kits = set(Kit.objects.filter(kit_set=kit_set).values_list("pk", flat=True)) if kits is None else kits
    with CaptureQueriesContext(connection) as asked:
        demand_checked(kit_set=kit_set, kits=kits, why=why, by=stage.stores)
    return len(asked)


def test_a_set_that_was_never_weighed_here_is_asked_one_question():
    assert demanded(*a_set(("R01", "V2"))) == 1


def test_a_missing_look_holds_the_kits_until_a_reason_is_written_and_other_kits_not():
    stage, kit_set = a_set(("R01", "V2"))
    whole_kits_lidded(kit_set, stage.stores)
    weighed_at(kit_set, "fine_salt", stage.stores)
    with pytest.raises(RuleBroken, match="Fine salt") as refused:
        demanded(stage, kit_set)
    assert refused.value.code == "check_open"
    demanded(stage, kit_set, kits=set())
    assert not AllTheSame.objects.exists()
    demanded(stage, kit_set, why="The second person is ill.")
    assert AllTheSame.objects.get().standing


#: Clean start, weights, lids, looks, lots and labels of the whole set, and the reason kept.
QUERIES = 41


@pytest.mark.parametrize("benches", [3, 8])
def test_few_and_many_kits_take_as_many_queries(benches):
    stage, kit_set = a_set(("V2",) + ("R01",) * (benches - 1))
    whole_kits_lidded(kit_set, stage.stores)
    weighed_at(kit_set, "fine_salt", stage.stores)
    assert demanded(stage, kit_set, why="No time.") == QUERIES
