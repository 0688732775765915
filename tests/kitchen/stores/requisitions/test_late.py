"""Which foods come too late for which supplier, by how much, and who still can."""

from datetime import date, datetime, time

import pytest

from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.packs import PackData
from kitchen.stores.requisitions.late import Missing, bought, late_words, minutes_late

TUESDAY = date(2027, 2, 16)
EVERY_DAY = (1, 2, 3, 4, 5, 6, 7)
DAIRY = SupplierData("dairy", "Dairy", 1, time(12), EVERY_DAY)
WHOLESALE = SupplierData("wholesale", "Wholesale", 1, time(18), EVERY_DAY)
FRIDAYS = SupplierData("fridays", "Fridays", 2, time(12), (5,))
SUPPLIERS = {each.code: each for each in (DAIRY, WHOLESALE, FRIDAYS)}
CREAM = Missing("cream", 800_000, TUESDAY, 3)
FIRST = date(2026, 9, 1)


def pack(supplier, pence, until=None):
    return PackData("cream", supplier, 1_000_000, pence, FIRST, until)


def asked(now, *packs):
    (found,) = bought([CREAM], packs, SUPPLIERS, now)
    return found


def test_the_worked_example():
    now = datetime(2027, 2, 14, 15)
    found = asked(now, pack("dairy", 300), pack("wholesale", 400))
    (late,), (able,) = found.past, found.can
    assert (late.supplier.code, late.on, late.send_by) == (
        "dairy",
        date(2027, 2, 15),
        datetime(2027, 2, 14, 12),
    )
    assert (minutes_late(late, now), able.supplier.code, found.late) == (180, "wholesale", False)
    assert found.send_by == datetime(2027, 2, 14, 18)


def test_the_cut_off_itself_is_in_time_and_a_second_after_is_not():
    assert asked(datetime(2027, 2, 14, 12), pack("dairy", 300)).can
    late = asked(datetime(2027, 2, 14, 12, 0, 1), pack("dairy", 300))
    assert late.late and minutes_late(late.past[0], datetime(2027, 2, 14, 12, 0, 1)) == 1


def test_a_supplier_whose_van_comes_only_before_it_would_keep_is_no_chance():
    """Friday 12 February is four days before Tuesday, and cream keeps three."""
    found = asked(datetime(2027, 2, 1), pack("fridays", 200))
    assert (found.none, found.late) == (("Fridays",), True)


def test_the_cheapest_by_weight_comes_first_and_a_price_that_has_ended_does_not_count():
    found = asked(datetime(2027, 2, 1), pack("dairy", 300), pack("wholesale", 200))
    assert [each.supplier.code for each in found.can] == ["wholesale", "dairy"]
    ended = asked(datetime(2027, 2, 1), pack("dairy", 300), pack("wholesale", 200, until=FIRST))
    assert [each.supplier.code for each in ended.can] == ["dairy"]


def test_a_food_that_nobody_sells_is_late():
    assert asked(datetime(2027, 2, 1)).late


@pytest.mark.parametrize(
    ("minutes", "words"), [(20, "20 min"), (180, "3 h"), (47 * 60, "47 h"), (48 * 60, "2 days")]
)
def test_how_late_is_said_in_the_largest_unit(minutes, words):
    assert late_words(minutes) == words
