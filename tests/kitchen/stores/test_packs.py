"""Purchases are rounded up to whole packs, never down."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.packs import PackData, Purchase, cheapest, packs_for

#: Made here beside the rule: need in grams, pack in grams, packs. The last is the trap of
#: 0.1 kg + 0.2 kg in a pack of 0.3 kg, which is one pack.
PAIRS = [(1350, 500, 3), (1500, 500, 3), (1501, 500, 4), (0, 500, 0), (100 + 200, 300, 1)]


@pytest.mark.parametrize(("need", "pack", "count"), PAIRS)
def test_a_need_is_covered_by_whole_packs(need, pack, count):
    assert packs_for(need * 1000, pack * 1000) == count


def test_three_packs_of_500_g_for_1350_g_leave_150_g():
    bought = cheapest(1_350_000, [PackData("flour", "mill", 500_000, 60)])
    assert (bought.count, bought.pence, bought.over_milligrams) == (3, 180, 150_000)


def test_the_cheaper_way_wins_even_when_more_is_left():
    sizes = [PackData("flour", "mill", 1_500_000, 165), PackData("flour", "mill", 16_000_000, 1360)]
    assert cheapest(2_240_000, sizes).pack.milligrams == 1_500_000
    assert cheapest(14_000_000, sizes).pack.milligrams == 16_000_000


def test_a_pack_that_is_no_longer_sold_is_not_bought():
    old = PackData("flour", "mill", 500_000, 10, until_on=date(2027, 1, 1))
    assert cheapest(1, [old], date(2027, 2, 1)) is None


@pytest.mark.parametrize(("need", "pack"), [(-1, 5), (1, 0)])
def test_nonsense_is_refused(need, pack):
    with pytest.raises(ValueError):
        packs_for(need, pack)


def is_lawful(bought: Purchase) -> bool:
    """Enough is bought, and one pack fewer would not be enough."""
    return 0 <= bought.over_milligrams < bought.pack.milligrams


@given(st.integers(0, 10**9), st.integers(1, 10**8), st.integers(1, 10**5))
def test_enough_is_bought_and_not_a_pack_too_many(need, pack, pence):
    assert is_lawful(cheapest(need, [PackData("x", "y", pack, pence)]))


def test_a_planted_pack_too_many_or_too_few_breaks_the_law():
    pack = PackData("flour", "mill", 500, 10)
    assert not is_lawful(Purchase(pack, 4, 1500)) and not is_lawful(Purchase(pack, 2, 1500))
