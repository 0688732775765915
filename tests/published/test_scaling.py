"""Scaling as the page does it, against published worked examples that stand nowhere else here."""

from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.foods import costs, yields
from curriculum.foods.data import FoodData
from curriculum.recipes import bakers, tins
from curriculum.recipes.data import ComponentData, LineData, RecipeData, TinData
from curriculum.recipes.scaled.asked import Asked
from curriculum.recipes.scaled.page import batch_of
from tests.published.rows import row

F = Fraction
CHEF = "chefhelp.ca: 35 portions of 185 g to 50 of 230 g"
BC = "BCcampus, Basic Kitchen and Food Service Management (results read in a copy)"
MATHS = "Bakery and Business Math, openwa.pressbooks.pub"
CUT = "printed with its last places cut off, not rounded"
CHARTS = "two capacity charts; the implied depth is geometry"


def soup(stated, portion_grams, grams=6_475):
    """One linear food for so many portions of so many grams."""
    line = LineData(1, "soup", grams * 1000)
    component = ComponentData("A", "Soup", "portions", (line,))
    return RecipeData(
        "S",
        "Soup",
        1,
        "basic",
        stated,
        stated,
        portion_grams * 1000,
        (component,),
        (),
        (FoodData("soup", "Soup"),),
    )


def asked(recipe, portions, grams):
    return batch_of(recipe, Asked(portions, portion_milligrams=grams * 1000))[1]


SIZED = asked(soup(35, 185), 50, 230)
SAME = batch_of(soup(100, 99), Asked(80))[1]
FACTORS = [
    row("35 of 185 g to 50 of 230 g", SIZED.factor, "1.77606", CHEF),
    row(
        "the same as its page rounds it",
        round(SIZED.factor, 2),
        "exact 1.78",
        CHEF,
        because="a rounded factor",
    ),
    row("grams of the batch", SIZED.lines[0].exact_milligrams / 1000, "exact 11500", CHEF, "computed"),
    row("100 to 80 of one size", SAME.factor, "exact 0.8", "USDA Recipes for Schools, E-05", "computed"),
]


@pytest.mark.parametrize("each", FACTORS, ids=lambda each: each.what)
def test_portions_of_another_size_are_scaled_by_their_weight(each):
    assert each.holds(), float(each.computed)


def test_the_factor_is_not_shortened_on_the_way():
    """The page that prints 1.78 for 1.77606 makes 25 g too much of 11.5 kg."""
    assert SIZED.lines[0].exact_milligrams == 11_500_000 != 6_475_000 * F("1.78")


def factor(per_cent):
    return costs.usable_price(1, F(per_cent) / 100)


YIELDS = [
    row("tenderloin, 70 %", factor(70), "1.42", BC, "read in a copy", within="0.01", because=CUT),
    row(
        "salmon",
        1 / yields.share(F("7.75"), 5),
        "1.55",
        BC,
        "read in a copy",
    ),
    row("tuna", 1 / yields.share(750, 400), "exact 1.875", BC, "read in a copy"),
    row(
        "striploin: a usable kilogram",
        costs.usable_price(F("11.95"), yields.share(F("5.2"), F("4.6"))),
        "13.51",
        "a teaching kitchen's yield test: 5.2 to 4.6 kg at 11.95",
        "computed",
    ),
    row(
        "striploin: bought for 14.45 kg usable",
        F("14.45") / yields.share(F("5.2"), F("4.6")),
        "16.33",
        "the same",
        "computed",
    ),
]


@pytest.mark.parametrize("each", YIELDS, ids=lambda each: each.what)
def test_a_cost_factor_is_what_was_published(each):
    assert each.holds(), float(each.computed)


def dough(**grams):
    foods = tuple(
        FoodData(food, food.title(), dough_part="flour" if food in ("white", "rye", "whole") else "")
        for food in grams
    )
    lines = tuple(LineData(n, food, each) for n, (food, each) in enumerate(grams.items(), start=1))
    return RecipeData(
        "D", "Dough", 1, "basic", 1, 1, 0, (ComponentData("A", "Dough", "portions", lines),), (), foods
    )


def test_several_flours_are_the_hundred_together():
    """75, 20 and 5 % of three flours; total 163 % (a bakery text, read)."""
    ((_, shares),) = bakers.doughs(
        dough(white=375_000, whole=100_000, rye=25_000, water=250_000, milk=50_000, yeast=5_000, salt=10_000)
    )
    assert sum(shares.values()) == 163, MATHS
    assert [shares[food] for food in ("white", "whole", "rye", "milk")] == [75, 20, 5, 10]


def test_a_recipe_s_dough_is_made_as_73_baguettes():
    ((_, shares),) = bakers.doughs(dough(white=1_000_000, water=670_000, salt=20_000, yeast=10_000))
    made = bakers.from_total(73 * 390_000, shares)
    assert row("flour", made["white"] / 1000, "16747", MATHS).holds() and sum(made.values()) == 28_470_000


def test_the_dough_of_a_total_that_a_text_shortened():
    """100 / 1.75 / 2 / 0.375 / 58: 162.125 %; the text divides by 1.62, and 23 / 40 is 57.5 %."""
    ((_, shares),) = bakers.doughs(dough(white=100_000, salt=1_750, sugar=2_000, yeast=375, water=58_000))
    assert sum(shares.values()) == F("162.125"), MATHS
    ((_, water),) = bakers.doughs(dough(white=40_000, water=23_000))
    assert water["water"] == F("57.5"), MATHS


@pytest.mark.parametrize(
    ("diameter", "litres", "depth"),
    [(18, "1.1", "4.3"), (20, "1.7", "5.4"), (23, "2.3", "5.5"), (25, "3.4", "6.9"), (28, "4.5", "7.3"),
     (30, "5.7", "8.1")],
)  # fmt: skip
def test_a_capacity_chart_is_for_no_one_depth(diameter, litres, depth):
    base = tins.base_area(TinData("t", 1, "round", diameter * 10)) / 100
    assert row("depth", F(litres) * 1000 / base, depth, CHARTS, "computed").holds()


@pytest.mark.parametrize(("diameter", "side"), [(20, "17.72"), (23, "20.38"), (25, "22.16")])
def test_the_square_of_equal_area_holds_exactly_as_much(diameter, side):
    square, tin = TinData("s", 1, "square", length_mm=1), TinData("t", 1, "round", diameter * 10)
    factor = tins.same_depth_factor(tin, replace(square, length_mm=F(side) * 10))
    assert abs(factor - 1) < F(6, 10_000), "geometry: d x sqrt(pi) / 2, printed to 0.1 mm"
    assert tins.is_same_size(factor)
