"""Purchases are rounded up to whole packs, never down."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.packs import PackData, Purchase, cheapest, counts_of, least_cost, packs_for

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


def by_trying(need, sizes):
    """The least cost of covering the need, by taking every pack in turn and trying the rest."""
    if need <= 0:
        return 0
    return min(cost + by_trying(need - size, sizes) for size, cost in sizes)


SIZES = st.lists(st.tuples(st.integers(2, 7), st.integers(0, 9)), min_size=1, max_size=4)


@given(st.integers(0, 14), SIZES)
def test_mixed_sizes_cost_what_trying_everything_finds(need, sizes):
    counts = counts_of(need, sizes)
    assert sum(sizes[at][0] * count for at, count in counts.items()) >= need
    cost = sum(sizes[at][1] * count for at, count in counts.items())
    assert cost == least_cost(need, sizes) == by_trying(need, sizes)


def test_planted_the_size_that_is_cheapest_by_weight_alone_is_dearer():
    """Planted: buying only the size with the least price a gram covers 2,300 g for £4.00 instead of £2.70."""
    sizes = [(2_000_000, 200), (500_000, 70)]
    assert least_cost(2_300_000, sizes) == 270 < 2 * 200 and counts_of(2_300_000, sizes) == {0: 1, 1: 1}


def test_a_large_need_in_odd_sizes_is_reduced_and_stays_exact():
    sizes = [(454, 90), (500, 100), (1000, 185)]
    whole = [0]
    for need in range(1, 40_001):
        whole.append(min(cost + whole[max(0, need - size)] for size, cost in sizes))
    assert [least_cost(need, sizes) for need in (1, 453, 9_999, 40_000)] == [
        whole[need] for need in (1, 453, 9_999, 40_000)
    ]


@pytest.mark.parametrize("sizes", [[], [(0, 5)]])
def test_no_pack_and_a_pack_of_nothing_are_refused(sizes):
    with pytest.raises(ValueError):
        least_cost(1, sizes)
