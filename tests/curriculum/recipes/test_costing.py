from datetime import date
from fractions import Fraction

import pytest

from curriculum.foods.costs import Cost, PackPrice, pence
from curriculum.recipes.costing import batch_cost, class_costs, uses_of
from curriculum.recipes.scaling import scale
from curriculum.recipes.whole_class import Bought
from kitchen.website.demonstration.entries import packs_in
from tests.builders.recipes import college_recipe, fixture

#: Pence of one batch at the demonstration's prices, computed by another program.
COSTS = {
    "R01": 542,
    "R02": 573,
    "R03": 533,
    "R04": 848,
    "R05": 779,
    "R06": 144,
    "R07": 432,
    "R08": 783,
    "R09": 1593,
    "R10": 1102,
    "R11": 1024,
    "R12": 2007,
    "V1": 613,
    "V2": 470,
    "V3": 503,
    "V4": 800,
    "V5": 133,
}


@pytest.fixture(scope="module")
def prices():
    packs = packs_in(fixture("stores.json"), date(2027, 1, 4))
    return {
        pack.food: PackPrice(pack.food, pack.milligrams, pack.pence, pack.pieces)
        for pack in packs
        if pack.for_costing
    }


@pytest.mark.parametrize("code", COSTS)
def test_a_batch_costs_what_it_uses(code, prices):
    recipe = college_recipe(code)
    cost = batch_cost(scale(recipe, recipe.portions_stated), recipe, prices)
    assert (pence(cost.exact_pence), cost.without_price) == (COSTS[code], ())


def test_a_food_without_a_pack_is_named(prices):
    recipe = college_recipe("R01")
    less = {code: price for code, price in prices.items() if code != "leek"}
    assert batch_cost(scale(recipe, 8), recipe, less).without_price == ("leek",)


def test_eggs_of_all_parts_are_one_use():
    recipe = college_recipe("R03")
    uses = [use for use in uses_of(scale(recipe, 12), recipe) if use.food == "egg_in_shell"]
    assert len(uses) == 1


# A class


def test_a_class_costs_its_benches_as_used_and_its_packs_as_bought():
    batch = Cost(Fraction(542), ("nutmeg",))
    packs = [Bought(2, PackPrice("flour", 1_000_000, 130), Fraction(0)), None]
    found = class_costs(batch, packs, 7, 8, learners=14, selling_pence=320, share_per_mille=300)
    assert (found.used, found.bought, found.a_learner) == (3794, 260, 271)
    assert (found.a_portion, found.share) == (Fraction(542, 8), Fraction(542, 8 * 320))
    assert found.price_pence == Fraction(542 * 10, 8 * 3) and found.without_price == ("nutmeg",)


def test_what_was_not_said_is_not_reckoned():
    found = class_costs(Cost(Fraction(542)), [], 7, 8)
    assert (found.a_learner, found.share, found.price_pence) == (None, None, None)
