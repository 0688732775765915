from dataclasses import replace

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.data import AfterData
from curriculum.recipes.page import page_of
from curriculum.recipes.step_words import stay_words
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe


def _line(page, component, food):
    found = next(each for each in page.components if each.code == component)
    return next(line for line in found.lines if line.food == food)


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_every_recipe_of_the_book_makes_a_page(code):
    page = page_of(college_recipe(code), {}, {})
    assert page.components and page.steps and page.slip and page.facts.endswith(".")
    assert all(step.meta.endswith(".") for step in page.steps)


def test_as_written_a_weight_is_never_rounded():
    line = _line(page_of(college_recipe("R01"), {}, {}), "A", "Water")
    assert (line.figure, line.unit, line.exact) == ("62", "g", "")
    assert "15.5 g held back." in line.points


def test_scaled_the_weight_to_issue_stands_beside_the_exact_one():
    page = page_of(college_recipe("R03"), {}, {}, 7)
    coffee = _line(page, "B", "Instant coffee, strong")
    assert (coffee.figure, coffee.exact) == ("6", "5.83 g")
    assert _line(page_of(college_recipe("R02"), {}, {}, 6), "C", "Double cream 48 %").exact == ""


def test_allergens_stand_inside_the_line_and_above_by_kind():
    page = page_of(college_recipe("R04"), {}, {})
    assert _line(page, "D", "Flaked almonds").contains == ("almond",)
    assert "nuts (almond)" in page.contains and any("hazelnut" in words for words in page.may_contain)


def test_a_food_whose_label_nobody_has_read_is_named():
    assert page_of(college_recipe("V1"), {}, {}).not_read == (
        "Gluten-free flour blend (rice, potato, maize)",
    )


def test_a_step_says_minutes_place_setting_core_and_what_comes_before():
    page = page_of(college_recipe("R01"), {}, {})
    meta = page.steps[7].meta
    for words in (
        "5 min at work, 35 min waiting.",
        "Oven, 155\xa0°C fan.",
        "Core 75 to 82\xa0°C, held 30 s.",
        "After step 6 (within 8 h).",
    ):
        assert words in meta


def test_an_oven_that_is_off_and_shut_is_said():
    stays = college_recipe("R08").step(3).stays
    assert stay_words(stays[1]) == "oven, heat off, door shut, 30 min"


def test_another_way_of_a_step_is_said_with_its_own_minutes():
    points = page_of(college_recipe("R03"), {}, {}).steps[3].points
    assert any("By hand: 14 min." in each for each in points)


def test_steps_in_a_ring_have_no_time_line_and_do_not_break_the_page():
    recipe = college_recipe("R01")
    ring = tuple(replace(s, after=(AfterData(9),)) if s.position == 1 else s for s in recipe.steps)
    page = page_of(replace(recipe, steps=ring), {}, {})
    assert page.picture is None and page.slip == (("Oven, two settings", "55 min"), ("Ingredients", "£0.00"))


def test_a_caution_of_several_steps_is_said_once_above():
    cautions = page_of(college_recipe("R11"), {}, {}).cautions
    assert len(cautions) == len(set(cautions)) > 3
    assert sum("Sharp knife" in words for words in cautions) == 1
    assert page_of(replace(college_recipe("R01"), steps=(), caution=""), {}, {}).cautions == ()


def test_portions_that_are_none_are_refused():
    with pytest.raises(RuleBroken):
        page_of(college_recipe("R01"), {}, {}, -1)


def test_an_amount_that_was_written_in_cups_stands_beside_its_grams():
    recipe = college_recipe("R01")
    first = recipe.components[0]
    lines = (replace(first.lines[0], written="1 1/2 cups"), *first.lines[1:])
    cups = replace(recipe, measures="us", components=(replace(first, lines=lines), *recipe.components[1:]))
    shown = page_of(cups, {}, {}).components[0].lines
    assert shown[0].points[0] == "1½ cups." and "1½ cups." not in shown[1].points
    unread = replace(cups, measures="")
    assert "1½ cups." not in page_of(unread, {}, {}).components[0].lines[0].points


def test_where_the_cautions_of_steps_stand_is_said_once_above():
    assert page_of(college_recipe("R09"), {}, {}).caution_steps == "A caution stands at step 4."
    assert page_of(college_recipe("R05"), {}, {}).caution_steps == "Cautions stand at steps 2, 4 and 5."
    assert page_of(replace(college_recipe("R01"), steps=()), {}, {}).caution_steps == ""


def test_a_claim_that_a_label_denies_is_not_printed_and_is_said_instead():
    quiche = college_recipe("R01")
    page = page_of(replace(quiche, free_from=("milk", "nuts")), {}, {})
    assert page.free_from == ("nuts",)
    (words,) = page.claims_broken
    assert "made without milk" in words and "Unsalted butter" in words
    assert page_of(quiche, {}, {}).claims_broken == ()
