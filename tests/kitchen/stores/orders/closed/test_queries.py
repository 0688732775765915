"""The page of closed days: from today on, with the orders that still come on them."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.courses.models import Holiday
from kitchen.stores.orders.closed.actions import close_day
from kitchen.stores.orders.closed.queries import closed_rows
from kitchen.stores.orders.models import Order
from tests.builders.cast import TODAY, build_cast
from tests.builders.deliveries import a_pack, an_order

pytestmark = pytest.mark.django_db


def test_each_day_says_whose_it_is_and_which_orders_come_on_it():
    cast = build_cast()
    order = an_order(a_pack("plain_flour", 1500), by=cast.stores)
    Order.objects.update(for_on=TODAY + timedelta(2))
    close_day(on=TODAY + timedelta(2), words="Stock count", by=cast.stores)
    Holiday.objects.create(on=TODAY + timedelta(5), words="Founder’s day")
    Holiday.objects.create(on=TODAY - timedelta(5))
    rows = closed_rows()
    assert [(row.words, row.own, row.orders) for row in rows] == [
        ("Stock count", True, (order,)),
        ("Founder’s day", False, ()),
    ]


def test_as_many_queries_for_thirty_days_as_for_three():
    cast = build_cast()

    def queries(first, count):
        for number in range(count):
            close_day(on=TODAY + timedelta(first + number), words="Yard", by=cast.stores)
        with CaptureQueriesContext(connection) as found:
            closed_rows()
        return len(found)

    assert queries(1, 3) == queries(10, 27) <= 4
