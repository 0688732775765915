"""Each learner's diet against every line: four findings, and never more is promised.

Kinds and groups: Regulation (EU) No 1169/2011, Annex II. The learners and labels are the
demonstration college's own.
"""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.allergens import GROUPS, KINDS, kinds_of
from kitchen.lessons.diets import (
    Avoids,
    Finding,
    blocked_words,
    check_recipe,
    find,
    label_missing,
    other_dishes,
    unread_foods,
    workable,
)
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

QUICHE = college_recipe("R01")
QUICHES = (college_recipe("V1"), college_recipe("V2"))
BOOK = [college_recipe(code) for code in RECIPE_CODES]
READ = date(2027, 2, 12)


def read(recipe):
    """The recipe with every label read."""
    foods = tuple(replace(food, label_read_on=food.label_read_on or READ) for food in recipe.foods)
    return replace(recipe, foods=foods)


def test_nothing_on_file_finds_nothing_declared_against_it():
    assert find([], QUICHE, QUICHES).finding is Finding.NOTHING


def test_egg_is_found_in_the_wash_as_in_the_custard_and_needs_the_variant():
    found = find([Avoids(kind="egg")], QUICHE, QUICHES)
    assert found.finding is Finding.VARIANT and found.variant.code == "V2"
    assert {mark.component for mark in found.ordinary.declared} == {"Savoury custard", "Seal"}
    assert found.words.startswith("Needs the variant: ")


def test_gluten_is_found_in_the_dusting_flour_too():
    marks = check_recipe([Avoids(kind="gluten")], QUICHE).declared
    assert len(marks) == 2 and {mark.why for mark in marks} == {"contains wheat"}


def test_a_variant_whose_label_nobody_has_read_waits_for_the_label():
    found = find([Avoids(kind="gluten")], QUICHE, QUICHES)
    assert (found.finding, found.variant.code) == (Finding.UNREAD, "V1")
    assert "Gluten-free flour blend" in found.words and "Somebody reads it" in found.words
    assert find([Avoids(kind="gluten")], QUICHE, [read(each) for each in QUICHES]).finding is Finding.VARIANT


def test_milk_without_a_variant_is_a_dish_this_learner_cannot_make():
    found = find([Avoids(kind="milk")], college_recipe("R04"), [college_recipe("V4")])
    assert found.finding is Finding.CANNOT and found.variant is None
    assert "no variant leaves it out" in found.words


def test_may_contain_stands_apart_with_the_day_the_label_was_read():
    found = find([Avoids(kind="mustard")], QUICHE, QUICHES)
    assert found.finding is Finding.NOTHING
    (mark,) = found.check.may_contain
    assert (mark.food, mark.why, mark.label_read_on) == (
        "White pepper, ground",
        "may contain mustard",
        date(2027, 1, 5),
    )


def test_a_food_itself_is_found_and_so_is_the_egg_behind_the_yolk():
    assert (
        check_recipe([Avoids(food="leek", food_name="Leek")], QUICHE).declared[0].why
        == "it is the food itself"
    )
    assert len(check_recipe([Avoids(food="egg_in_shell")], college_recipe("R03")).declared) == 2


def test_an_unanswered_fact_is_listed_as_not_answered_and_not_as_a_no():
    cheese = college_recipe("R01")
    foods = tuple(
        replace(food, facts=tuple(pair for pair in food.facts if pair[0] != "meat"))
        if food.code == "mature_cheddar"
        else food
        for food in cheese.foods
    )
    found = find([Avoids(way="vegetarian")], replace(cheese, foods=foods))
    assert found.finding is Finding.NOTHING
    assert "meat: not answered" in {mark.why for mark in found.check.not_answered}


def test_a_way_of_eating_meets_meat_and_gelatine():
    assert find([Avoids(way="vegetarian")], college_recipe("R11")).finding is Finding.CANNOT
    assert find([Avoids(way="no_pork")], college_recipe("R05")).finding is Finding.CANNOT
    assert find([Avoids(way="no_pork")], QUICHE).check.not_answered == ()


def test_a_vegan_meets_milk_and_egg_from_the_label():
    whys = {mark.why for mark in check_recipe([Avoids(way="vegan")], QUICHE).declared}
    assert {"egg: yes", "milk: yes"} <= whys


def test_a_trace_of_alcohol_is_listed_apart():
    marks = check_recipe([Avoids(way="no_alcohol")], college_recipe("R08"))
    assert [mark.why for mark in marks.may_contain] == ["alcohol: a trace"] and not marks.declared


def test_only_what_is_possible_is_offered_as_a_place():
    codes = [each.code for each in (QUICHE, *QUICHES)]
    assert workable([], QUICHE, QUICHES) == tuple(codes)
    assert workable([Avoids(kind="egg")], QUICHE, QUICHES) == ("V2",)
    assert workable([Avoids(kind="milk")], QUICHE, QUICHES) == ()


def test_cannot_comes_with_other_dishes_of_the_book_that_train_the_same_techniques():
    found = other_dishes([Avoids(kind="sesame")], QUICHE, BOOK)
    assert len(found) == 3 and all(count > 0 for _, count in found)
    assert [count for _, count in found] == sorted((count for _, count in found), reverse=True)
    assert QUICHE.code not in {each.code for each, _ in found}
    assert all(
        not check_recipe([Avoids(kind="egg")], each).declared
        for each, _ in other_dishes([Avoids(kind="egg")], QUICHE, BOOK)
    )


def test_an_unread_label_stops_the_kit_in_words_and_the_tap_needs_none():
    variant = QUICHES[0]
    assert unread_foods(variant) == ("Gluten-free flour blend (rice, potato, maize)",)
    assert blocked_words(variant).startswith("No label read: ") and blocked_words(QUICHE) == ""
    tap = replace(QUICHE.food("water"), label_read_on=None)
    assert not label_missing(QUICHE, tap)


@pytest.mark.parametrize("asked", [{}, {"kind": "egg", "way": "vegan"}])
def test_an_avoidance_names_exactly_one_thing(asked):
    with pytest.raises(ValueError):
        Avoids(**asked)


def test_the_word_safe_is_never_said():
    said = [find([Avoids(kind=kind)], each, QUICHES).words for kind in GROUPS for each in BOOK]
    assert not any("safe" in words.lower() for words in said)


def broken_laws(code: str, recipe, found) -> list[str]:
    """What must hold of a finding, whatever the recipe."""
    kinds = kinds_of(code)
    holds = any(kinds & set(food.contains) for food in recipe.foods)
    broken = []
    if holds and found.finding is Finding.NOTHING:
        broken.append("a declared kind was passed over")
    if found.variant and any(kinds & set(food.contains) for food in found.variant.foods):
        broken.append("the variant holds it too")
    if found.finding is Finding.NOTHING and any(label_missing(recipe, food) for food in recipe.foods):
        broken.append("an unread label was passed over")
    return broken


@given(st.sampled_from((*GROUPS, *KINDS)), st.sampled_from(RECIPE_CODES))
def test_no_declared_kind_is_ever_passed_over(code, dish):
    recipe = college_recipe(dish)
    variants = [each for each in map(college_recipe, VARIANT_CODES) if each.variant_of == dish]
    assert broken_laws(code, recipe, find([Avoids(kind=code)], recipe, variants)) == []


def test_planted_violations_are_caught_by_the_laws():
    blind = find([], QUICHE)
    assert "a declared kind was passed over" in broken_laws("egg", QUICHE, blind)
    wrong = replace(find([Avoids(kind="egg")], QUICHE, QUICHES), variant=QUICHES[0])
    assert "the variant holds it too" in broken_laws("egg", QUICHE, wrong)
    assert "an unread label was passed over" in broken_laws("fish", QUICHES[0], blind)
