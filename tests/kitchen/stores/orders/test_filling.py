"""Which packs only fill up a least order, and the weeks that use them, in words."""

from datetime import date, timedelta

from kitchen.stores.orders.filling import Filling, fillings
from kitchen.stores.orders.problem import Answer, Ask, Buy, Drop, Wanted
from kitchen.stores.orders.week import FoodUse
from kitchen.stores.packs import PackData

DAY = date(2027, 2, 16)
MARCH = date(2027, 3, 1)
DROP = Drop("mill", DAY)
FLOUR = PackData("flour", "mill", 1000, 300, key=7)
USES = {"flour": (FoodUse(MARCH + timedelta(1), 900), FoodUse(MARCH + timedelta(9), 2000))}


def found(need, count, pack=FLOUR, uses=USES):
    ask = Ask((Wanted("flour", need, DAY, DAY, 0, 5000),), (DROP,), (pack,))
    buys = (Buy(0, DROP, pack, count),)
    return fillings(ask, Answer(buys, (DROP,), 0, 0), uses)


def test_packs_beyond_the_need_fill_up_for_the_weeks_that_use_them():
    assert found(1000, 3) == {(DAY, 7): Filling(2, MARCH, MARCH + timedelta(7))}
    assert found(0, 1) == {(DAY, 7): Filling(1, MARCH, MARCH + timedelta(7))}
    assert found(900, 1) == {}


def test_what_a_whole_pack_leaves_over_is_used_first_and_fills_up_nothing():
    assert found(2500, 3) == {}


def test_the_words_name_one_week_or_the_first_and_the_last():
    one = Filling(1, MARCH, MARCH).words
    assert one == "1 pack only fills up the least order, used in the week of Monday 1 March"
    two = Filling(2, MARCH, MARCH + timedelta(7)).words
    assert two == (
        "2 packs only fill up the least order, used in the weeks of Monday 1 March to Monday 8 March"
    )
