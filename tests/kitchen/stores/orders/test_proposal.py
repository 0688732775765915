"""The optimum beside what people reckon by hand, and what is too late with the last time to send."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.orders.problem import Wanted
from kitchen.stores.orders.proposal import propose
from kitchen.stores.orders.week import FoodUse
from kitchen.stores.packs import PackData

TUESDAY = date(2027, 2, 16)
MONDAY = TUESDAY - timedelta(1)
DAIRY = SupplierData("dairy", "Dairy", 1, time(12), (1, 3, 5), 450)
NOW = datetime(2027, 2, 9, 9)
PACKS = (PackData("cream", "dairy", 2_000_000, 600), PackData("cream", "dairy", 500_000, 200))


def cream(grams, by=MONDAY):
    return Wanted("cream", grams * 1000, by - timedelta(3), by)


def proposed(pooled, lines=(), packs=PACKS, now=NOW):
    return propose(pooled, lines or pooled, packs, {"dairy": DAIRY}, now)


def test_pooled_and_mixed_packs_cost_least_single_packs_more_and_lines_alone_most():
    """2,300 g: 2,000 g and 500 g; five of 500 g; and for two lines of 1,150 g, three of 500 g each."""
    found = proposed([cream(2300)], [cream(1150), cream(1150)])
    assert found.answer.pence == 600 + 200 + 450
    assert (found.single_pence, found.alone_pence) == (1000 + 450, 1200 + 450)
    assert found.answer.proved


def test_what_had_to_be_sent_before_now_is_too_late_and_the_page_says_until_when():
    found = proposed([cream(100)], now=datetime(2027, 2, 14, 12, 1))
    assert not found.answer.buys and found.alone_pence == 0
    assert found.too_late[0].why == (
        "The order had to reach Dairy by 12:00 on Sunday 14 February, for the delivery on Monday 15 February."
    )


def test_a_van_that_never_comes_on_these_days_and_a_food_on_no_list_are_told_apart():
    thursday = Wanted("cream", 1, TUESDAY, TUESDAY)
    assert "Nobody who sells it delivers" in proposed([thursday]).too_late[0].why
    assert proposed([cream(1)], packs=()).too_late[0].why == "No pack of it is on any supplier’s list."


def test_days_that_no_one_delivery_serves_are_bought_each_by_itself():
    """What is used on Monday comes on Friday, and does not keep until Thursday."""
    monday, thursday = cream(400, TUESDAY - timedelta(2)), cream(500, TUESDAY + timedelta(1))
    whole = Wanted("cream", 900_000, thursday.from_on, monday.by_on)
    found = proposed([whole], [monday, thursday])
    assert not found.too_late
    assert [buy.drop.on for buy in found.answer.buys] == [TUESDAY - timedelta(4), TUESDAY + timedelta(1)]


MILL = SupplierData("mill", "Mill", 1, time(12), (1,), 0, 1000)
FLOUR, SALT = PackData("flour", "mill", 1_000_000, 300), PackData("salt", "mill", 1_000_000, 400)
WANTED = [Wanted("flour", 1_000_000, MONDAY - timedelta(90), MONDAY)]


def filled(uses, keeps):
    uses = {food: tuple(FoodUse(*use) for use in rows) for food, rows in uses.items()}
    return propose(WANTED, WANTED, (FLOUR, SALT), {"mill": MILL}, NOW, (), uses, keeps)


def test_an_order_is_filled_up_with_what_will_be_used_needed_this_week_or_not():
    march = MONDAY + timedelta(20)
    found = filled({"flour": [(march, 1_000_000)], "salt": [(march, 1_000_000)]}, {"flour": 90, "salt": 90})
    assert sorted((buy.pack.food, buy.count) for buy in found.answer.buys) == [("flour", 2), ("salt", 1)]
    assert (found.answer.pence, found.answer.proved, found.refused) == (1000, True, ())


def test_what_does_not_keep_until_it_is_used_fills_up_nothing_and_the_order_is_short():
    march = MONDAY + timedelta(20)
    found = filled({"flour": [(march, 1_000_000)], "salt": [(march, 1_000_000)]}, {"flour": 90, "salt": 19})
    assert found.answer.missing == (0,) and not found.answer.buys
    assert (found.alone_pence, found.single_pence) == (0, 0), "The simpler ways leave out the same foods."
    (refused,) = found.refused
    assert (refused.reached_pence, refused.short_pence, refused.drop.on) == (600, 400, MONDAY)
    assert [(buy.pack.food, buy.count) for buy in refused.buys] == [("flour", 1)]


def test_a_closed_day_that_is_the_only_one_is_named():
    closed = replace(DAIRY, closed=((MONDAY, "the college is closed"),))
    only = Wanted("cream", 1, MONDAY, MONDAY)
    assert propose([only], [only], PACKS, {"dairy": closed}, NOW).too_late[0].why == (
        "Dairy would come on Monday 15 February, but the college is closed."
    )
