from dataclasses import replace

import pytest

from curriculum.recipes.variants.avoided import CODES, affected, foods_without, free_from, has, words_without
from tests.builders.recipes import RECIPE_CODES, college_food, college_foods, college_recipe

QUICHE = college_recipe("R01")


def _lines(code, answer="yes"):
    return [(each.component.code, each.food.code) for each in affected(QUICHE, code, answer)]


def test_over_issue_and_dusting_are_lines_like_any_other():
    assert _lines("gluten") == [("A", "soft_wheat_flour"), ("X", "soft_wheat_flour")]


def test_a_part_of_an_egg_and_the_wash_have_egg_because_the_shell_has():
    assert _lines("egg") == [("C", "egg_beaten"), ("D", "egg_beaten")]
    yolk, shell = replace(college_food("egg_yolk"), contains=()), college_food("egg_in_shell")
    assert has("egg", yolk, shell) == "yes" and has("egg", yolk, yolk) == "no"


def test_a_way_of_eating_asks_facts_and_labels():
    assert ("A", "unsalted_butter") in _lines("vegan") and ("C", "egg_beaten") in _lines("vegan")
    assert free_from("vegan") == ("fish", "egg", "milk") and free_from("no_alcohol") == ()


def test_what_may_contain_it_or_whose_label_nobody_read_is_perhaps():
    pepper = college_food("white_pepper_ground")
    assert has("mustard", pepper, pepper) == "perhaps"
    unread = replace(college_food("leek"), label_read_on=None)
    assert has("milk", unread, unread) == "perhaps"
    assert has("milk", college_food("water"), college_food("water")) == "no"


@pytest.mark.parametrize("code", CODES)
def test_no_food_that_is_offered_has_it(code):
    foods = college_foods()
    for food in foods_without(code, foods):
        whole = foods[food.made_from.food] if food.made_from else food
        assert has(code, food, whole) != "yes"
    assert words_without(code)


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_affected_lines_are_those_whose_labels_say_it(code):
    recipe = college_recipe(code)
    found = {each.food.code for each in affected(recipe, "milk")}
    said = {food.code for food in recipe.foods if "milk" in food.contains}
    assert found == said
