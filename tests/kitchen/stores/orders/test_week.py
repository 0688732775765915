"""What a week needs, less what may be used on the day; what is missing is bought for as long as it keeps."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.allocation import LotData
from kitchen.stores.orders.week import PAR, Keeps, Need, Stock, serve, wanted, with_par

TUESDAY = date(2027, 2, 16)
THURSDAY = TUESDAY + timedelta(2)
SUNDAY = TUESDAY + timedelta(5)
KG = 10**6


def lot(code="A", grams=1000, use_by=None, **more):
    kind = "use_by" if use_by else "none"
    return LotData(code, "cream", grams * 1000, TUESDAY - timedelta(9), kind, use_by, **more)


def need(grams, on=TUESDAY, lesson="L1"):
    return Need(lesson, on, "cream", grams * 1000)


def missing(needs, stock):
    return [each.missing_milligrams // 1000 for each in serve(needs, stock)]


def test_what_is_past_its_date_on_the_later_day_is_bought_though_it_lies_on_the_shelf():
    there = [Stock(lot(use_by=TUESDAY))]
    assert missing([need(600), need(600, THURSDAY)], there) == [0, 600]
    assert missing([need(600), need(600, lesson="L2")], there) == [0, 200]


@pytest.mark.parametrize(
    "barred",
    [
        {"held": True},
        {"reserved_free_from": True},
        {"names_more": ("milk",)},
        {"made_in": "L9"},
    ],
)
def test_held_reserved_and_made_lots_are_not_counted(barred):
    assert missing([need(600)], [Stock(lot(**barred))]) == [600]


def test_a_lot_that_was_opened_or_thawed_ends_so_many_days_later():
    keeps = Keeps("chilled", opened_days=3, thawed_days=1)
    ends = keeps.last_day(TUESDAY - timedelta(2), None)
    assert ends == TUESDAY + timedelta(1) and keeps.last_day(None, None) is None
    assert keeps.last_day(TUESDAY, TUESDAY) == TUESDAY + timedelta(1)
    assert missing([need(500), need(500, THURSDAY)], [Stock(lot(last_on=ends))]) == [0, 500]
    assert Keeps("chilled").last_day(TUESDAY, TUESDAY) is None


def test_what_is_on_order_counts_from_its_delivery_on_and_apart_from_stock():
    order = Stock(replace(lot("order"), received_on=TUESDAY + timedelta(1)), ordered=True)
    served = serve([need(600), need(600, THURSDAY)], [order])
    assert [(each.stock_milligrams, each.ordered_milligrams) for each in served] == [(0, 0), (0, 600_000)]
    assert [each.usable_milligrams for each in served] == [0, 0]


def test_earlier_days_are_served_first_whatever_order_they_come_in():
    assert missing([need(800, THURSDAY), need(800)], [Stock(lot())]) == [0, 600]


def test_the_par_level_is_covered_last_from_what_is_left():
    needs = with_par([need(700)], {"cream": Keeps("chilled", par_milligrams=KG)}, SUNDAY)
    served = serve(needs, [Stock(lot(use_by=SUNDAY))])
    assert [(each.need.lesson, each.missing_milligrams) for each in served] == [("L1", 0), (PAR, 700_000)]


def test_one_delivery_serves_the_days_that_it_keeps_and_another_those_beyond():
    served = serve([need(100), need(200, THURSDAY), need(400, SUNDAY)], [])
    first, second = wanted(served, {"cream": Keeps("chilled", delivered_days=3)}, {})
    assert (first.milligrams, first.by_on, first.from_on) == (
        300_000,
        TUESDAY - timedelta(1),
        THURSDAY - timedelta(3),
    )
    assert (second.milligrams, second.by_on) == (400_000, SUNDAY - timedelta(1))
    assert len(wanted(served, {"cream": Keeps("frozen")}, {})) == 1


def test_what_keeps_a_day_comes_on_the_day_itself():
    (only,) = wanted(serve([need(100)], []), {"cream": Keeps("chilled", delivered_days=0)}, {})
    assert (only.from_on, only.by_on) == (TUESDAY, TUESDAY)


@pytest.mark.parametrize(
    ("keeps", "again", "is_waste"),
    [
        (Keeps("chilled"), None, True),
        (Keeps("chilled"), TUESDAY + timedelta(4), False),
        (Keeps("chilled"), TUESDAY + timedelta(5), True),
        (Keeps("chilled", par_milligrams=1), None, False),
        (Keeps("ambient"), None, False),
        (Keeps("ambient", delivered_days=7), None, True),
    ],
)
def test_what_is_left_over_is_waste_unless_it_keeps_until_it_is_used(keeps, again, is_waste):
    (only,) = wanted(serve([need(100)], []), {"cream": keeps}, {"cream": again} if again else {})
    assert bool(only.waste_pence_per_kilogram) is is_waste


NEEDS = st.lists(st.tuples(st.integers(0, 6), st.integers(1, 900)), max_size=6)
LOTS = st.lists(st.tuples(st.integers(0, 6), st.integers(1, 900)), max_size=4)


def is_lawful(needs, lots, served):
    """Nothing is missing that is not needed, and no more is given than the lots hold."""
    given_out = sum(each.stock_milligrams for each in served)
    return (
        all(0 <= each.missing_milligrams <= each.need.milligrams for each in served)
        and given_out <= sum(grams for _, grams in lots) * 1000
        and sum(each.need.milligrams for each in served) == sum(grams for _, grams in needs) * 1000
    )


@given(NEEDS, LOTS)
def test_what_is_given_never_exceeds_the_lots(needs, lots):
    asked = [need(grams, TUESDAY + timedelta(day), f"L{at}") for at, (day, grams) in enumerate(needs)]
    there = [Stock(lot(f"A{at}", grams, TUESDAY + timedelta(day))) for at, (day, grams) in enumerate(lots)]
    assert is_lawful(needs, lots, serve(asked, there))


def test_planted_a_lot_that_is_given_out_twice_breaks_the_law():
    needs, lots = [(0, 600), (0, 600)], [(0, 600)]
    twice = [*serve([need(600)], [Stock(lot(grams=600))]), *serve([need(600)], [Stock(lot(grams=600))])]
    assert not is_lawful(needs, lots, twice)
