"""Recipe factors, baker's percentages and costs, against published worked examples.

Published teaching figures truncate, round a factor on the way, and round lines. The exact
value is compared with the exact recomputation; the printed one only within its last digit.
"""

from fractions import Fraction

import pytest

from curriculum.foods import costs, units, yields
from curriculum.foods.handwriting import written
from curriculum.foods.measures import read_amount
from curriculum.recipes import bakers
from curriculum.recipes.data import ComponentData, FoodData, LineData, RecipeData
from curriculum.recipes.scaling import scale
from tests.published.rows import row

F = Fraction
CARD = "US forces recipe card A-1: 1.25 lb for 100, 348 portions"
SCHOOLS = "USDA Recipes for Schools, chicken salad E-07 (25 and 50 servings)"
BAKER = "a bakery arithmetic text: 73 baguettes of 390 g at 100/67/2/1"
MATHS = "Bakery and Business Math, openwa.pressbooks.pub"


def card(milligrams, portions):
    """A recipe of one linear food, so much of it for so many portions."""
    line = LineData(1, "food", round(milligrams))
    salad = ComponentData("A", "Salad", "portions", (line,))
    return RecipeData(
        "S", "Salad", 1, "basic", portions, portions, 0, (salad,), (), (FoodData("food", "Food"),)
    )


def factor(stated, wanted):
    """The factor of a batch, as the product finds it."""
    return scale(card(1_000_000, stated), wanted).factor


def scaled(milligrams, stated, wanted):
    """Exact milligrams of the line for the wanted portions; the stored line is in whole milligrams."""
    return scale(card(milligrams, stated), wanted).lines[0].exact_milligrams


FACTORS = [
    row("100 to 80 servings of one size", factor(100, 80), "exact 0.8", "USDA Recipes for Schools, E-05"),
    row("348 portions of a card for 100", factor(100, 348), "exact 3.48", CARD),
    row("8 to 18 portions", factor(8, 18), "exact 2.25", MATHS),
    row("25 to 50 servings", factor(25, 50), "exact 2", SCHOOLS),
    row(
        "pounds for 348",
        scaled(F("1.25") * units.POUND.size, 100, 348) / units.POUND.size,
        "4.35",
        f"{CARD}; the line is stored in whole milligrams, half of one is 0.0000011 lb, times 3.48",
        within="0.000004",
    ),
]


@pytest.mark.parametrize("each", FACTORS, ids=lambda each: each.what)
def test_a_factor_is_wanted_over_stated(each):
    assert each.holds(), float(each.computed)


def test_a_card_s_weight_prints_as_the_card_prints_it():
    """4.35 lb is 4 lb 5.60 oz, which the card rounds to 5 1/2 oz."""
    needed = scaled(F("1.25") * units.POUND.size, 100, 348)
    assert written(needed, "mass", units.US) == "4 lb 5½ oz", CARD


@pytest.mark.parametrize(
    ("one", "double"),
    [
        ("3 lb 3 oz", "6 lb 6 oz"),
        ("6 lb 6 oz", "12 lb 12 oz"),
        ("11 oz", "1 lb 6 oz"),
        ("6 oz", "12 oz"),
        ("7 1/2 oz", "15 oz"),
    ],
)
def test_doubled_weights_are_those_of_the_larger_column(one, double):
    assert written(scaled(read_amount(one).milligrams, 25, 50), "mass", units.US) == double, SCHOOLS


@pytest.mark.parametrize(
    ("one", "double"),
    [
        ("2 qt 2 cups", "1 gal 1 qt"),
        ("1 gal 1 qt", "2 gal 2 qt"),
        ("2 1/2 cups 2 Tbsp", "1 qt 1¼ cups"),
        ("1 cup", "2 cups"),
        ("3/4 cup 2 Tbsp", "1¾ cups"),
    ],
)
def test_doubled_measures_are_those_of_the_larger_column(one, double):
    assert written(read_amount(one, units.US).millilitres * factor(25, 50), "volume", units.US) == double, (
        SCHOOLS
    )


CUT = "printed with its last places cut off, not rounded"
SHARES = {"flour": F(100), "water": F(67), "salt": F(2), "yeast": F(1)}
BAGUETTE = bakers.from_total(73 * 390, SHARES)
BAKERS = [
    row(
        "flour, cut after the third place", BAGUETTE["flour"], "16747.058", BAKER, within="0.001", because=CUT
    ),
    row(
        "water of the flour as printed, cut after the third place",
        bakers.from_one("flour", F("16747.058"), SHARES)["water"],
        "11220.528",
        BAKER,
        within="0.001",
        because=CUT,
    ),
    row("salt", BAGUETTE["salt"], "334.94", BAKER),
    row("yeast", BAGUETTE["yeast"], "167.47", BAKER),
    row("sum", sum(BAGUETTE.values()), "exact 28470", BAKER),
    row(
        "20 % sugar on 5 kg flour",
        bakers.from_one("flour", 5000, {"flour": F(100), "sugar": F(20)})["sugar"],
        "exact 1000",
        MATHS,
    ),
]


@pytest.mark.parametrize("each", BAKERS, ids=lambda each: each.what)
def test_a_dough_is_divided_as_published(each):
    assert each.holds(), float(each.computed)


@pytest.mark.parametrize(
    ("food", "ounces", "per_cent"),
    [
        ("salt", "11.2", "1.75"),
        ("sugar", "12.8", "2"),
        ("yeast", "9.6", "1.5"),
        ("oil", "19.2", "3"),
        ("water", "371.2", "58"),
    ],
)
def test_a_pizza_dough_on_forty_pounds_of_flour_has_its_percentages(food, ounces, per_cent):
    dough = {"flour": F(40 * 16), food: F(ounces)}
    assert bakers.percentages(dough, frozenset({"flour"}))[food] == F(per_cent), MATHS


def test_a_dough_from_one_known_food():
    shares = {
        "white": F(75),
        "water": F(50),
        "rye": F(5),
        "whole": F(20),
        "milk": F(10),
        "yeast": F(1),
        "salt": F(2),
    }
    dough = bakers.from_one("milk", 50, shares)
    assert sum(dough.values()) == 815 and dough["white"] + dough["rye"] + dough["whole"] == 500, MATHS
    assert (dough["water"], dough["yeast"], dough["salt"]) == (250, 5, 10)


def test_a_total_is_not_shortened_on_the_way():
    """A text divides by 1.62 for a total of 162.125 %; 50 kg of dough then hold 24 g more flour."""
    shares = {"flour": F(100), "a": F("1.75"), "b": F(2), "c": F("0.375"), "d": F(58)}
    dough = bakers.from_total(50_000, shares)
    assert dough["flour"] == F(50_000) / F("1.62125") and sum(dough.values()) == 50_000
    assert 23 < F(50_000) / F("1.62") - dough["flour"] < 24


LAMB = costs.usable_value(F("79.80"), [F("6.10"), F("1.5") * F("4.60"), 0])
COSTS = [
    row("lamb: usable value", LAMB, "exact 66.80", "butcher's test, lamb loin 12 lb at 6.65"),
    row("lamb: a usable pound", LAMB / 6, "11.13", "the same"),
    row("lamb: an ounce", LAMB / 96, "0.70", "the same"),
    row("lamb: five ounces", LAMB * 5 / 96, "3.48", "the same"),
    row("lamb: cost factor", LAMB / 6 / F("6.65"), "1.67", "the same"),
    row("food used", F(costs.food_used(750, 500, 625)), "exact 625", "a food-cost exercise"),
    row("food cost share", costs.cost_share(625, 1850) * 100, "33.8", "the same"),
    row("price at 30 %", costs.price_for_share(15, F("0.3")), "exact 50", "the same"),
    row("price at 40 %", costs.price_for_share(500, F("0.4")), "exact 1250", "the same"),
    row("mango usable", costs.usable_price(F("1.67"), F("0.75")), "2.227", "a yield exercise", "computed"),
    row(
        "10 g of a 100 g pack at 50",
        costs.cost_of(costs.Use("x", F(10)), costs.PackPrice("x", 100, 50)),
        "exact 5",
        MATHS,
    ),
]


@pytest.mark.parametrize("each", COSTS, ids=lambda each: each.what)
def test_a_cost_is_what_was_published(each):
    assert each.holds(), float(each.computed)


def test_a_published_price_that_was_cut_is_known_as_such():
    """Cauliflower at 1.49 and 55 % is printed as 2.70: the exact 2.709 cut, not rounded."""
    exact = costs.usable_price(F("1.49"), F("0.55"))
    assert F("2.70") < exact < F("2.71"), MATHS


def test_onions_are_costed_as_bought():
    """Two pounds peeled need 2 1/4 lb at 0.24: 0.54, and not 0.48 (a yield exercise, read)."""
    share = yields.share(F("2.25"), 2)
    assert 2 * costs.usable_price(F("0.24"), share) == F("0.54")
    bought = costs.Use("onion", 2 * units.POUND.size / share)
    assert costs.cost_of(bought, costs.PackPrice("onion", round(units.POUND.size * 100), 2400)) == 54


def test_half_of_the_lamb_is_usable_and_its_portion_has_its_cost_factor():
    """Butcher's test: usable 6 of 12 lb, 50 %; five ounces cost 0.52 of a pound as bought (read)."""
    assert yields.share(12, 12 - F(1) - F("1.5") - 3 - F("0.5")) == F(1, 2)
    assert row("factor", LAMB / 6 * 5 / 16 / F("6.65"), "0.52", "butcher's test").holds()


def test_a_cost_factor_of_a_portion_is_what_the_portion_costs():
    """Cooking-loss form, leg of lamb: 0.2931 for 125 g is 2.3448 a kilogram (results read in a copy)."""
    kilogram = costs.PackPrice("lamb", 1_000_000, 23_448)
    assert costs.cost_of(costs.Use("lamb", F(125_000)), kilogram) == 2_931
