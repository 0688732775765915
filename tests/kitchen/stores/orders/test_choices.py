"""What a wanted food costs depends on the packs that can reach it, and is reckoned once for them."""

from datetime import timedelta

import pytest

from kitchen.stores.orders.choices import Choices
from kitchen.stores.orders.problem import MISSING, Ask, Drop, Wanted
from kitchen.stores.packs import MICRO, PackData
from tests.builders.orders import MONDAY

TUESDAY = MONDAY + timedelta(1)
ASK = Ask(
    (Wanted("flour", 1500, MONDAY, TUESDAY),),
    (Drop("mill", MONDAY, 100), Drop("mill", TUESDAY, 200), Drop("shop", TUESDAY)),
    (PackData("flour", "mill", 1000, 30, until_on=MONDAY), PackData("flour", "shop", 500, 20)),
)


def test_a_cost_follows_the_deliveries_that_come():
    choices = Choices(ASK)
    assert choices.cost(0b001) == 60 * MICRO and choices.cost(0b101) == 50 * MICRO
    assert choices.cost(0b100) == 60 * MICRO and choices.charges(0b011) == 300 * MICRO


def test_a_price_that_has_ended_is_not_to_be_had_on_the_later_day():
    assert Choices(ASK).cost(0b010) == MISSING


def test_a_food_that_nobody_brings_in_time_is_refused():
    with pytest.raises(ValueError):
        Choices(
            Ask((Wanted("flour", 1, TUESDAY + timedelta(1), TUESDAY + timedelta(2)),), ASK.drops, ASK.packs)
        )


def test_most_is_the_need_with_the_use_or_with_less_than_the_smallest_pack_there_is():
    def most(need, more):
        want = Wanted("flour", need, MONDAY, TUESDAY, 0, more)
        return Choices(Ask((want,), ASK.drops, ASK.packs)).most

    assert (most(1500, 0), most(1500, 2000), most(0, 300)) == ([1999], [3500], [300])
