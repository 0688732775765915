"""What a change makes of a requisition: before, now, difference, by food and reason."""

from kitchen.stores.requisitions.difference import Difference, differences, totals
from kitchen.stores.requisitions.reasons import BENCHES, SECOND_MARKER, SPARE, Asked

BEFORE = (
    Asked("butter", BENCHES, 1_120_000),
    Asked("butter", SPARE, 160_000),
    Asked("egg", BENCHES, 26 * 57_000, 26),
    Asked("leek", BENCHES, 400_000),
)
NOW = (
    Asked("butter", BENCHES, 1_280_000),
    Asked("egg", BENCHES, 26 * 57_000, 26),
    Asked("egg", SECOND_MARKER, 2 * 57_000, 2),
    Asked("cream", BENCHES, 300_000),
)


def test_each_food_that_is_more_new_or_gone_is_named_and_a_sum_that_stands_is_not():
    """160 g of butter for one bench more, and none to spare any more: the sum is the same."""
    found = {each.food: (each.kind, each.milligrams) for each in differences(BEFORE, NOW)}
    assert found == {"cream": ("new", 300_000), "egg": ("more", 114_000), "leek": ("gone", -400_000)}


def test_the_reasons_that_changed_come_in_their_order_with_their_share():
    more = (*NOW, Asked("butter", SPARE, 320_000))
    butter = next(each for each in differences(BEFORE, more) if each.food == "butter")
    assert butter == Difference("butter", 1_280_000, 1_600_000, ((BENCHES, 160_000), (SPARE, 160_000)))


def test_nothing_changed_is_no_row():
    assert differences(BEFORE, reversed(BEFORE)) == ()


def test_differences_lead_from_before_to_now():
    """Planted: one that is missing is seen."""
    found = {each.food: each.milligrams for each in differences(BEFORE, NOW)}
    led = {food: totals(BEFORE).get(food, 0) + found.get(food, 0) for food in {*found, *totals(BEFORE)}}
    assert {food: amount for food, amount in led.items() if amount} == totals(NOW)
    del found["egg"]
    assert totals(BEFORE)["egg"] + found.get("egg", 0) != totals(NOW)["egg"]
