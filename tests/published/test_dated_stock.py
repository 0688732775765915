"""Dated stock and whole packs: which lot goes first, which is barred, how many packs are bought.

Sources, row by row: that a use-by and a best-before are different data are the titles of
the GS1 identifiers 17 and 15 (read); that a past use-by bars a lot and a past best-before
only warns, that the earliest date goes first with ties by receipt, that a lot may be split:
common practice, no source. The pack pairs are made here, beside the rule that purchases are
rounded up (USDA Food Buying Guide, see ``test_purchases``).
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from kitchen.stores.allocation import LineNeed, LotData, allocate, barred, warning
from kitchen.stores.packs import PackData, cheapest, counts_of, packs_for

PRACTICE = "common practice, no source"
TITLES = "titles of GS1 identifiers 17 (use by or expiry) and 15 (best before), read"
DAY = date(2027, 2, 16)
IN = DAY - timedelta(30)


def lot(code, kind="none", days=None, received=0, grams=100):
    """A lot dated so many days after the day of use, received so many days after the first ones."""
    dated = None if days is None else DAY + timedelta(days)
    return LotData(code, "butter", grams * 1000, IN + timedelta(received), kind, dated)


@pytest.mark.parametrize(
    ("kind", "days", "is_barred", "is_warned", "source"),
    [
        ("use_by", -1, True, False, f"{TITLES}; {PRACTICE}"),
        ("use_by", 0, False, False, f"{TITLES}; {PRACTICE}"),
        ("use_by", 1, False, False, f"{TITLES}; {PRACTICE}"),
        ("best_before", -1, False, True, f"{TITLES}; {PRACTICE}"),
        ("best_before", 0, False, False, f"{TITLES}; {PRACTICE}"),
        ("none", None, False, False, PRACTICE),
    ],
)
def test_a_past_use_by_bars_and_a_past_best_before_warns(kind, days, is_barred, is_warned, source):
    dated = lot("A", kind, days)
    assert (bool(barred(dated, DAY)), bool(warning(dated, DAY))) == (is_barred, is_warned), source
    drawn = allocate([LineNeed("line", "butter", 1000)], [dated], DAY).draws
    assert bool(drawn) is not is_barred, source


@pytest.mark.parametrize(
    ("lots", "order"),
    [
        ((lot("A", "use_by", 9), lot("B", "use_by", 2)), "BA"),
        ((lot("A", "best_before", 9), lot("B", "use_by", 2)), "BA"),
        ((lot("A", "use_by", 2, received=5), lot("B", "use_by", 2, received=1)), "BA"),
        ((lot("A"), lot("B", "best_before", 300)), "BA"),
        ((lot("A", "use_by", -1), lot("B", "use_by", 2), lot("C", "use_by", 1)), "CB"),
    ],
)
def test_the_earliest_date_that_covers_the_day_goes_first(lots, order):
    """First the earliest date, ties by the earliest receipt (common practice, no source)."""
    everything = sum(each.on_hand_milligrams for each in lots)
    answer = allocate([LineNeed("line", "butter", everything)], lots, DAY)
    assert "".join(code for code, _ in answer.by_lot("butter")) == order
    assert sum(each.milligrams for each in answer.draws) == len(order) * 100_000
    assert sum(each.short_milligrams for each in answer.shortages) == everything - len(order) * 100_000


def test_a_line_of_two_lots_names_both():
    """A lot may be split and two lots used are two numbers on the kit (common practice, no source)."""
    need = LineNeed("line", "butter", 150_000)
    answer = allocate([need], [lot("A", "use_by", 1), lot("B", "use_by", 2)], DAY)
    assert [(each.lot, each.milligrams) for each in answer.draws] == [("A", 100_000), ("B", 50_000)]


#: Grams needed, grams a pack, packs, grams over. The last is 0.1 kg + 0.2 kg in packs of 0.3 kg.
PACKS = [(1350, 500, 3, 150), (1500, 500, 3, 0), (1501, 500, 4, 499), (0, 500, 0, 0), (100 + 200, 300, 1, 0)]


@pytest.mark.parametrize(("need", "pack", "count", "over"), PACKS)
def test_packs_are_bought_whole_and_an_exact_need_takes_no_pack_more(need, pack, count, over):
    assert packs_for(need * 1000, pack * 1000) == count
    bought = cheapest(need * 1000, [PackData("butter", "dairy", pack * 1000, 100)])
    assert (bought.count, bought.over_milligrams) == (count, over * 1000)
    assert counts_of(need * 1000, [(pack * 1000, 100)]) == ({0: count} if count else {})


def test_a_reckoning_in_kilograms_would_fall_into_the_trap():
    """Planted: binary fractions of a kilogram ask for two packs where one is enough."""
    assert -(-(0.1 + 0.2) // 0.3) == 2


@pytest.mark.parametrize(("after", "is_barred"), [(-1, True), (0, False), (None, False)])
def test_a_lot_ends_when_it_was_opened_or_thawed_longer_ago_than_it_keeps(after, is_barred):
    """Shelf life after opening bars a lot like its use-by date (common practice, no source)."""
    ends = None if after is None else DAY + timedelta(after)
    opened = replace(lot("A", "best_before", 30), last_on=ends)
    assert ("opened or thawed" in barred(opened, DAY)) is is_barred
    assert bool(allocate([LineNeed("line", "butter", 1000)], [opened], DAY).draws) is not is_barred
