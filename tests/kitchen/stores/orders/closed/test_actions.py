"""A day is closed once and opened again; how long an order is filled up is one row."""

from datetime import timedelta

import pytest

from curriculum.courses.models import Holiday
from curriculum.errors import RuleBroken
from kitchen.stores.orders.closed.actions import close_day, open_day, set_fill_weeks
from kitchen.stores.orders.closed.queries import closed_days
from kitchen.stores.orders.models import ClosedDay, OrderRule
from tests.builders.cast import TODAY, build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def stores():
    return build_cast().stores


def test_a_closed_day_says_why_and_is_closed_once(stores):
    close_day(on=TODAY, words="Stock count", by=stores)
    assert closed_days(TODAY, TODAY) == ((TODAY, "the stores take nothing in (Stock count)"),)
    with pytest.raises(RuleBroken) as refused:
        close_day(on=TODAY, words="Again", by=stores)
    assert refused.value.code == "closed_already" and "(Stock count) already" in refused.value.message
    open_day(on=TODAY, by=stores)
    open_day(on=TODAY, by=stores)
    assert not ClosedDay.objects.exists()


def test_a_holiday_of_the_college_is_closed_to_deliveries(stores):
    Holiday.objects.create(on=TODAY, words="Founder’s day")
    found = closed_days(TODAY - timedelta(3), TODAY + timedelta(3))
    assert found == ((TODAY, "the college is closed (Founder’s day)"),)
    with pytest.raises(RuleBroken):
        close_day(on=TODAY, words="Twice", by=stores)


def test_the_weeks_of_filling_up_are_one_row(stores):
    for weeks in (2, 6):
        set_fill_weeks(weeks=weeks, by=stores)
    assert OrderRule.objects.get().fill_weeks == 6
