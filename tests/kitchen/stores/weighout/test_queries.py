"""The weigh-out is read in as many queries with twelve benches as with three."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitchen.stores.queries import planned_draws, trays_of
from kitchen.stores.weighout.cards.queries import cards_of
from kitchen.stores.weighout.old_trays.queries import old_trays
from kitchen.stores.weighout.queries import seen_of, tally_of, weigh_out
from tests.builders.stores import a_lot, college_lots, kits_made, quiche_stage
from tests.builders.weighout import all_weighed

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def counted(read, *args):
    with CaptureQueriesContext(connection) as seen:
        read(*args)
    return len(seen)


def counts(benches):
    """How often each page asks, with everything weighed once; then with kits made again."""
    stage = quiche_stage(benches=("R01",) * (benches - 1) + ("V2",), ahead=())
    college_lots()
    kit_set = kits_made(stage)
    for number, short in enumerate(planned_draws(kit_set).shortages):
        a_lot(short.food, f"MORE-{number}", grams=20_000)
    all_weighed(kit_set, stage.stores)
    page, trays = weigh_out(kit_set, stage.stores), trays_of(kit_set)
    found = [
        counted(weigh_out, kit_set, stage.stores),
        counted(tally_of, kit_set, page.stop("fine_salt"), page.trays),
        counted(seen_of, kit_set),
        counted(cards_of, kit_set, trays),
    ]
    kits_made(stage)
    return [*found, counted(old_trays, stage.lesson)]


#: The order with everything known of it, a tally, what a page asks again, labels, old trays.
ASKED = [35, 5, 5, 9, 6]


@pytest.mark.parametrize("benches", [3, 12])
def test_the_number_of_queries_does_not_grow(benches):
    assert counts(benches) == ASKED
