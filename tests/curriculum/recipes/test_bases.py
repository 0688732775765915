from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.recipes.bases import Filled, batch_factor, component_factor, own_tins
from curriculum.recipes.scaling import scale
from tests.builders.recipes import college_recipe

F = Fraction


def test_another_weight_of_a_portion_changes_the_factor():
    recipe = replace(college_recipe("R03"), portions_stated=35, portion_milligrams=185_000)
    assert batch_factor(recipe, 50, F(230, 185)) == F(50 * 230, 35 * 185)
    assert scale(recipe, 50, size=F(230, 185)).factor == F(50 * 230, 35 * 185)


def test_a_tart_cut_for_ten_is_the_same_tart_only_while_its_portions_are_of_its_own_weight():
    recipe = replace(college_recipe("R02"), may_be_cut_for=(10,))
    assert batch_factor(recipe, 10) == 1
    assert batch_factor(recipe, 10, F(1, 2)) == F(10, 16)


def test_a_tin_filled_to_half_takes_half_the_filling_and_all_the_paste():
    scaled = scale(college_recipe("R01"), 8, filled=Filled(new_part=F(1, 2)))
    factors = {each.code: each.factor for each in scaled.components}
    assert (factors["A"], factors["C"]) == (1, F(1, 2))
    assert "filled to 50 % and not 100 % of the depth" in next(
        each.words for each in scaled.components if each.code == "C"
    )
    assert any("baking time" in words for words in scaled.words)


def test_a_volume_is_measured_inside_the_paste_or_outside_and_says_which():
    recipe = college_recipe("R01")
    small = (replace(recipe.tins[0], diameter_mm=200),)
    custard = next(each for each in recipe.components if each.code == "C")
    inside = component_factor(recipe, custard, F(1), small)
    outside = component_factor(recipe, custard, F(1), small, Filled(inside=False))
    assert inside[0] == F(194, 234) ** 2 and "inside the paste" in inside[1]
    assert outside[0] == F(25, 36) and "outside the paste" in outside[1]


@pytest.mark.parametrize(
    ("factor", "count"), [(F(1, 3), 1), (F(1), 1), (F(9, 8), 2), (F(3, 2), 2), (F(2), 2), (F(17, 8), 3)]
)
def test_own_tins_are_whole(factor, count):
    assert [tin.count for tin in own_tins(college_recipe("R01"), factor)] == [count]
