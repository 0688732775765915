from dataclasses import replace
from fractions import Fraction

from curriculum.recipes.scaling import scale
from curriculum.recipes.yields_of import line_yields
from tests.builders.recipes import college_recipe


def yields(code, portions):
    recipe = college_recipe(code)
    return {each.food: each for each in line_yields(recipe, scale(recipe, portions))}


def test_a_leek_is_shown_prepared_and_as_bought():
    leek = yields("R01", 8)["leek"]
    assert (leek.prepared, leek.bought, leek.per_mille) == (300_000, 400_000, 750)
    assert leek.whose == "as the food has it"


def test_a_turned_potato_has_a_share_of_its_own():
    potato = yields("R11", 4)["waxy_potato"]
    assert potato.bought == Fraction(360_000_000, 550) and potato.whose == "for this use"


def test_what_loses_nothing_and_what_is_counted_are_left_out():
    assert "soft_wheat_flour" not in yields("R01", 8) and "egg_beaten" not in yields("R01", 8)


def test_prepared_and_bought_go_with_the_batch():
    one, two = yields("R11", 4)["waxy_potato"], yields("R11", 8)["waxy_potato"]
    assert two.bought == 2 * one.bought and two.prepared == 2 * one.prepared


def test_what_is_weighed_as_bought_is_prepared_less_its_trimmings():
    """400 g of leek as bought at 75 % are 300 g prepared."""
    recipe = college_recipe("R01")
    parts = tuple(
        replace(each, lines=tuple(_bought(line) if line.food == "leek" else line for line in each.lines))
        for each in recipe.components
    )
    recipe = replace(recipe, components=parts)
    (leek,) = [each for each in line_yields(recipe, scale(recipe, 8)) if each.food == "leek"]
    assert (leek.prepared, leek.bought) == (300_000, 400_000)


def _bought(line):
    return replace(line, weight_is="as_bought", issued="as_bought", milligrams=400_000)
