"""When a supplier can still deliver, and until when the order must be sent."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

from kitchen.stores.orders.calendar import SupplierData, drops, latest_chance
from kitchen.stores.orders.problem import Drop

#: Takes orders until noon, four days ahead, for Tuesdays and Fridays.
MILL = SupplierData("mill", "Mill", 4, time(12), (2, 5), 600, 7500)
TUESDAY = date(2027, 2, 16)
FRIDAY = TUESDAY + timedelta(3)
UNTIL = datetime(2027, 2, 12, 12)


def test_an_order_for_tuesday_is_sent_by_noon_on_the_friday_before():
    assert MILL.send_by(TUESDAY) == UNTIL
    assert [day for day in MILL.days(TUESDAY, FRIDAY)] == [TUESDAY, FRIDAY]


def come(now, paid=()):
    return [drop.on for drop in drops([MILL], TUESDAY - timedelta(7), TUESDAY, now, paid)]


def test_a_delivery_can_be_had_until_the_very_minute_and_not_after_it():
    assert come(UNTIL) == [TUESDAY]
    assert come(UNTIL + timedelta(minutes=1)) == []


def test_a_delivery_that_an_order_has_paid_for_costs_nothing_more_and_has_no_least():
    paid = drops([MILL], TUESDAY, FRIDAY, UNTIL, [("mill", TUESDAY)])
    assert paid == (Drop("mill", TUESDAY), Drop("mill", FRIDAY, 600, 7500))


def test_the_latest_chance_names_the_delivery_whose_order_could_be_sent_last():
    shop = SupplierData("shop", "Shop", 1, time(14), (1, 2, 3, 4, 5))
    until, supplier, day = latest_chance([MILL, shop], TUESDAY - timedelta(1), TUESDAY)
    assert (until, supplier.code, day) == (datetime(2027, 2, 15, 14), "shop", TUESDAY)
    assert latest_chance([MILL], TUESDAY + timedelta(1), TUESDAY + timedelta(2)) is None


def test_on_a_closed_day_nothing_comes_and_it_is_said_why():
    closed = replace(MILL, closed=((TUESDAY, "the college is closed"), (TUESDAY + timedelta(1), "the same")))
    assert [
        drop.on for drop in drops([closed], TUESDAY - timedelta(4), FRIDAY, UNTIL - timedelta(5), ())
    ] == [
        TUESDAY - timedelta(4),
        FRIDAY,
    ]
    assert (closed.delivers_on(TUESDAY), closed.why_closed(TUESDAY)) == (False, "the college is closed")
    assert closed.kept_away(TUESDAY - timedelta(4), FRIDAY) == ((TUESDAY, "the college is closed"),)
