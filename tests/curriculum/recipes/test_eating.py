from dataclasses import replace

import pytest

from curriculum.recipes.eating import answer, ways_of_eating
from tests.builders.recipes import RECIPE_CODES, college_food, college_recipe


def _ways(recipe):
    return {each.name: each for each in ways_of_eating(recipe)}


def test_gelatine_stands_against_vegetarian_and_is_named():
    vegetarian = _ways(college_recipe("R05"))["Vegetarian"]
    assert vegetarian.words.startswith("Not for it: ") and "elatine" in vegetarian.words


def test_egg_and_milk_are_read_off_the_label_for_who_eats_neither():
    against = _ways(college_recipe("R01"))["Vegan"].against
    assert "Hen egg in shell, medium" in against and "Unsalted butter" in against


def test_nothing_declared_is_said_as_that_and_no_more():
    assert _ways(college_recipe("R01"))["No alcohol"].words == "Nothing declared against it."


def test_what_nobody_answered_is_not_taken_for_a_no():
    recipe = college_recipe("R01")
    foods = tuple(replace(each, facts=()) if each.code == "leek" else each for each in recipe.foods)
    said = _ways(replace(recipe, foods=foods))["No alcohol"]
    assert said.unanswered == ("Leek",) and said.words == "Not known of Leek."


def test_a_trace_is_named_apart():
    recipe = college_recipe("R01")
    facts = (("alcohol", "trace"),)
    foods = tuple(replace(each, facts=facts) if each.code == "leek" else each for each in recipe.foods)
    assert _ways(replace(recipe, foods=foods))["No alcohol"].words == "A trace in Leek."


def test_no_meat_is_no_pork_either():
    leek = replace(college_food("leek"), facts=(("meat", "no"),))
    assert (answer("pork", leek, leek), answer("alcohol", leek, leek)) == ("no", "unknown")


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_every_way_is_answered_in_full_sentences(code):
    assert all(
        each.words.endswith(".") and "safe" not in each.words for each in ways_of_eating(college_recipe(code))
    )


def test_a_recipe_without_lines_answers_nothing():
    assert ways_of_eating(replace(college_recipe("R01"), components=())) == ()
