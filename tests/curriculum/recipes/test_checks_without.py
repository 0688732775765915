"""A claim such as "made without milk" is held against every label of the recipe."""

from dataclasses import replace
from datetime import date

import pytest

from curriculum.recipes import checks
from tests.builders.recipes import college_recipe


def _claims(recipe):
    return {each.code: each for each in checks.findings(recipe) if each.code.startswith("claim_")}


def _with(recipe, code, **facts):
    foods = tuple(replace(each, **facts) if each.code == code else each for each in recipe.foods)
    return replace(recipe, foods=foods)


def _quiche(*free_from):
    return replace(college_recipe("R01"), free_from=free_from)


def test_a_recipe_that_claims_nothing_is_not_asked():
    assert _claims(_quiche()) == {}


def test_a_label_that_declares_it_stops_and_every_food_is_named():
    found = _claims(_quiche("gluten"))["claim_against_a_label"]
    assert found.stops
    assert "made without cereals containing gluten" in found.words
    assert "Soft wheat flour in Shortcrust paste" in found.words


def test_dusting_and_washes_are_lines_like_any_other():
    found = _claims(_quiche("gluten"))["claim_against_a_label"]
    assert found.words.count("Soft wheat flour in ") == 2


def test_a_label_that_nobody_has_read_is_for_a_person_to_look_at():
    recipe = _with(_quiche("nuts"), "leek", label_read_on=None)
    found = _claims(recipe)["claim_without_a_label"]
    assert not found.stops and "nobody has read the label of Leek in " in found.words


def test_a_label_that_says_may_contain_is_for_a_person_to_look_at():
    recipe = _with(_quiche("nuts"), "leek", may_contain=("almond",), label_read_on=date(2027, 1, 5))
    found = _claims(recipe)["claim_with_traces"]
    assert not found.stops and "may contain" in found.words


@pytest.mark.parametrize("code", ["V1", "V2", "V3", "V4", "V5"])
def test_the_variants_of_the_college_keep_what_they_claim(code):
    recipe = college_recipe(code)
    assert recipe.free_from
    assert not [each for each in _claims(recipe).values() if each.stops]
