"""Sums that foods which only fill up can come to: all of them, and what to buy for each."""

from itertools import product

from kitchen.stores.orders.choices import Item
from kitchen.stores.orders.fill import Fill

SUGAR = (0, (Item(0, 0, 1000, 120, 0), Item(1, 0, 2000, 210, 0)), 2500)
FLOUR = (1, (Item(2, 0, 1500, 200, 0),), 1500)


def test_the_sums_are_those_that_trying_everything_finds():
    tried = {
        a * 120 + b * 210 + c * 200
        for a, b, c in product(range(3), range(2), range(2))
        if a * 1000 + b * 2000 <= 2500
    }
    sums = Fill([SUGAR, FLOUR], 1000).sums
    assert {pence for pence in range(2000) if sums >> pence & 1} == tried


def test_the_nearest_sum_above_is_found_with_its_packs_and_too_much_is_refused():
    fill = Fill([SUGAR, FLOUR], 1000)
    assert [fill.cost(pence) for pence in (0, 1, 201, 321, 440, 441)] == [0, 120, 210, 410, 440, None]
    for pence in (0, 120, 320, 410, 440):
        picks = fill.picks(pence)
        assert sum(item.pence * count for _, item, count in picks) == pence
        assert sum(item.milligrams for wanted, item, _ in picks if wanted == 0) <= 2500


def test_without_foods_nothing_is_filled():
    assert (Fill([], 500).cost(0), Fill([], 500).cost(1)) == (0, None)
