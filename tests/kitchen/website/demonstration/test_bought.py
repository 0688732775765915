"""Par levels and the open delivery of the demonstration: done once, one line waits for a decision."""

import pytest

from curriculum.foods.models import Supplier
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.models import Lot
from kitchen.stores.orders.models import Keeping
from kitchen.website.demonstration import bought, files
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def college():
    """Foods, suppliers and packs of the files, and the stores person."""
    a_book()
    return a_person("hana", "stores")


def test_par_levels_are_set_once_and_stay_as_people_changed_them():
    bought.keep_par()
    assert Keeping.objects.count() == len(files.read("bought.json")["par"])
    Keeping.objects.filter(food__code="onion").update(par_milligrams=1)
    bought.keep_par()
    assert Keeping.objects.get(food__code="onion").par_milligrams == 1


def test_of_the_delivery_one_line_is_taken_in_and_the_substitute_waits():
    for _ in range(2):
        bought.deliver()
    taken, waits = DeliveryLine.objects.order_by("number")
    assert (taken.verdict, taken.lot.on_hand_milligrams) == ("taken", 6_000_000)
    assert (waits.verdict, waits.label_allergens, waits.lot) == ("waiting", ["soya"], None)
    assert Lot.objects.count() == 1 and taken.delivery.supplier == Supplier.objects.get(code="quernstone")
    assert taken.delivery.closed_at is None
