"""What a lesson will use that nobody has requisitioned for: the recipe, so many times."""

from datetime import date

from kitchen.stores.orders.coming.planned import Cooking, Written, planned_needs

DAY = date(2027, 3, 2)
QUICHE = {1: Written(8, (("flour", 260_000), ("flour", 40_000), ("salt", 1)))}


def grams(*lessons):
    return {need.food: need.milligrams for need in planned_needs(lessons, QUICHE)}


def test_pairs_make_a_batch_each_and_one_is_left_over():
    assert grams(Cooking("L", DAY, 1, 14)) == {"flour": 7 * 300_000, "salt": 7}
    assert grams(Cooking("L", DAY, 1, 15))["flour"] == 8 * 300_000


def test_single_benches_and_fewer_portions_are_counted_as_booked():
    assert grams(Cooking("L", DAY, 1, 3, 4, alone=True)) == {"flour": 450_000, "salt": 1}


def test_a_recipe_that_is_not_there_and_a_group_without_learners_use_nothing():
    assert grams(Cooking("L", DAY, 2, 14)) == grams(Cooking("L", DAY, 1, 0)) == {}
