"""What came in goes out as it came while nobody changed it: laws over documents within the standard."""

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from curriculum.recipes import editing
from curriculum.recipes.data import StayData, WayData
from curriculum.recipes.interchange import carrying, json_ld
from tests.builders.interchange import ROUNDS, accepted, rounds
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

LETTERS = st.characters(codec="utf-8", exclude_characters="<>&\x00", exclude_categories=("Cc", "Cs"))
WORDS = st.text(LETTERS, min_size=1, max_size=40).filter(lambda text: text.strip())
FOODS = st.sampled_from(["unsalted butter", "caster sugar", "moon dust", "soft wheat flour", "fine salt"])
LINES = st.builds("{} {} {}".format, st.integers(1, 999), st.sampled_from(["g", "kg", "cup", "tbsp"]), FOODS)
STEPS = st.one_of(
    WORDS, st.fixed_dictionaries({"@type": st.just("HowToStep"), "text": WORDS}, optional={"url": WORDS})
)
SECTIONS = st.fixed_dictionaries(
    {
        "@type": st.just("HowToSection"),
        "name": WORDS,
        "itemListElement": st.lists(STEPS, min_size=1, max_size=3),
    }
)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**12), 10**12) | st.floats(allow_nan=False, width=32) | WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=6,
)
DURATIONS = st.builds("PT{}H{}M".format, st.integers(0, 20), st.integers(0, 59))
DOCUMENTS = st.fixed_dictionaries(
    {
        "@context": st.sampled_from(
            ["https://schema.org", "http://schema.org/", {"@vocab": "https://schema.org/"}]
        ),
        "@type": st.sampled_from(["Recipe", ["Recipe"], ["Thing", "Recipe"], "https://schema.org/Recipe"]),
        "name": WORDS,
        "recipeYield": st.one_of(
            st.integers(1, 99),
            st.sampled_from(["8 wedges", "Serves 4", ["6", "6 bowls"], "a dozen", "4-6"]),
            st.fixed_dictionaries({"@type": st.just("QuantitativeValue"), "value": st.integers(1, 50)}),
        ),
    },
    optional={
        "recipeIngredient": st.lists(LINES, max_size=8) | LINES,
        "recipeInstructions": WORDS | st.lists(STEPS | SECTIONS, max_size=4) | SECTIONS,
        "prepTime": DURATIONS,
        "cookTime": DURATIONS | WORDS,
        "tool": st.lists(st.sampled_from(["bowl", {"@type": "HowToTool", "name": "whisk"}]), max_size=3),
        "keywords": WORDS | st.lists(WORDS, max_size=3),
        "recipeCategory": WORDS,
        "suitableForDiet": st.just("https://schema.org/VeganDiet"),
        "nutrition": VALUES,
        "author": VALUES,
        "image": VALUES,
        "video": VALUES,
    },
)


@settings(max_examples=150)
@given(DOCUMENTS)
def test_a_document_within_the_standard_goes_out_as_it_came_in(document):
    assert json_ld.document(accepted(json_ld.read(document))) == document


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_what_a_recipe_says_is_read_again_and_goes_out_again(code):
    recipe = college_recipe(code)
    said = json_ld.document(recipe)
    imported = json_ld.read(said)
    assert imported.title == recipe.title and imported.not_read == ()
    assert (imported.portions, imported.unit) == (recipe.portions_stated, recipe.unit)
    assert [line.text for line in imported.lines] == said["recipeIngredient"]
    assert [step.words for step in imported.steps] == [step.words for step in recipe.steps]
    assert json_ld.document(accepted(imported)) == said


def test_a_reader_that_loses_one_property_is_caught():
    imported = json_ld.read(ROUNDS)
    lossy = replace(imported, carried=imported.carried[:3] + imported.carried[4:])
    assert json_ld.document(accepted(imported)) == ROUNDS
    assert json_ld.document(accepted(lossy)) != ROUNDS


def test_a_line_that_is_changed_goes_out_in_its_own_words_and_the_others_as_they_came():
    recipe = accepted(json_ld.read(ROUNDS))
    line = replace(recipe.components[0].lines[1], milligrams=450_000)
    said = json_ld.document(editing.with_lines(recipe, "A", (line,)))
    assert said["recipeIngredient"] == [
        "250 g unsalted butter, soft",
        "450 g Soft wheat flour",
        "150 g caster sugar",
    ]
    assert said["recipeInstructions"] == ROUNDS["recipeInstructions"]


def test_a_claim_of_the_whole_dish_goes_with_the_lines_it_was_made_of():
    document = ROUNDS | {"suitableForDiet": "https://schema.org/VeganDiet", "nutrition": {"calories": "90"}}
    recipe = accepted(json_ld.read(document))
    assert json_ld.document(recipe)["nutrition"] == {"calories": "90"}
    less = json_ld.document(editing.without_line(recipe, "A", 1))
    assert "nutrition" not in less and less.get("suitableForDiet") != "https://schema.org/VeganDiet"


def test_what_a_person_did_not_accept_does_not_go_out():
    said = json_ld.document(accepted(json_ld.read(ROUNDS), leave_lines=(1,), leave_steps=(0,)))
    assert said["recipeIngredient"] == ["250 g unsalted butter, soft", "150 g caster sugar"]
    assert said["recipeInstructions"] == ROUNDS["recipeInstructions"][1:]
    assert said["author"] == ROUNDS["author"]


def test_a_title_and_a_portion_count_that_were_changed_go_out_changed():
    recipe = replace(accepted(json_ld.read(ROUNDS)), title="Rounds", portions_stated=24)
    said = json_ld.document(recipe)
    assert (said["name"], said["recipeYield"]) == ("Rounds", "24 rounds")


def test_times_of_the_file_stand_until_the_steps_have_minutes():
    recipe = accepted(json_ld.read(ROUNDS))
    assert json_ld.document(recipe)["prepTime"] == "PT20M"
    bake = replace(recipe.steps[2], ways=(WayData("hand", 5),), stays=(StayData(30, "oven", 1800),))
    said = json_ld.document(editing.changed_step(recipe, bake))
    assert (said["prepTime"], said["cookTime"], said["totalTime"]) == ("PT5M", "PT30M", "PT35M")


BROKEN_MARKS = ("", "{", "[]", '{"shape": 2}', '{"shape": 1, "whole": [], "each": {}}', "[" * 9000)


@pytest.mark.parametrize("marks", BROKEN_MARKS)
def test_carried_text_that_is_broken_breaks_nothing(marks):
    carried = ((carrying.MARKS, marks), ("author", "{"), ("video", '"v"'))
    recipe = replace(college_recipe("R01"), carried=carried)
    said = json_ld.document(recipe)
    assert said["name"] == recipe.title and "author" not in said and said["video"] == "v"


def test_null_is_kept_as_null():
    assert json_ld.document(accepted(json_ld.read(json.loads(rounds()))))["aggregateRating"] is None
