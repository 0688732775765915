"""Durations of ISO 8601 as another reader reads them, and the names of schema.org Recipe.

The durations were run through isodate 0.7.2, a general package; the names of the standard were read
in generated documentation of schema.org.
"""

from fractions import Fraction as F

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange import json_ld
from curriculum.recipes.interchange.durations import read_seconds, write_minutes
from tests.builders.recipes import college_recipe
from tests.published.rows import row

ISODATE = "ISO 8601 duration as isodate 0.7.2 reads it"
SECONDS = {
    "PT1H30M": "5400",
    "PT90M": "5400",
    "PT1.5H": "5400",
    "P1DT2H": "93600",
    "PT0S": "0",
    "P1W": "604800",
    "PT1M": "60",
}
ROWS = [
    row(text, read_seconds(text), f"exact {seconds}", ISODATE, "computed")
    for text, seconds in SECONDS.items()
]
#: schema.org Recipe, its properties and those of HowTo (generated library documentation, read).
NAMES = frozenset(
    (
        *("name", "author", "image", "recipeYield", "recipeIngredient", "recipeInstructions", "prepTime"),
        *("cookTime", "totalTime", "cookingMethod", "recipeCategory", "recipeCuisine", "suitableForDiet"),
        *("nutrition", "tool", "supply", "keywords"),
    )
)


@pytest.mark.parametrize("each", ROWS, ids=lambda each: each.what)
def test_a_duration_is_as_long_as_published(each):
    assert each.holds(), each


def test_ninety_minutes_are_written_as_the_other_reader_writes_them():
    assert write_minutes(90) == "PT1H30M" and F(read_seconds(write_minutes(90)), 60) == 90


@pytest.mark.parametrize("text", ["1H", "PT"])
def test_what_the_standard_does_not_allow_is_refused(text):
    with pytest.raises(RuleBroken):
        read_seconds(text)


@pytest.mark.parametrize("said", [{"ingredients": ["1 kg flour"]}, {"recipeIngredient": ["1 kg flour"]}])
def test_the_retired_name_of_the_ingredients_is_still_read(said):
    """schema.org: ``ingredients`` was replaced by ``recipeIngredient`` (generated documentation, read)."""
    recipe = json_ld.read({"@type": "Recipe", "name": "Bread", **said})
    assert [line.text for line in recipe.lines] == ["1 kg flour"]


def test_a_section_of_steps_keeps_its_name_and_order():
    """schema.org HowToSection: ``itemListElement`` holds its steps (documentation, read in part)."""
    steps = [{"@type": "HowToStep", "text": words} for words in ("Rub in.", "Rest.")]
    section = {"@type": "HowToSection", "name": "Paste", "itemListElement": steps}
    read = json_ld.read({"@type": "Recipe", "name": "Tart", "recipeInstructions": [section]}).steps
    assert [(step.section, step.words) for step in read] == [("Paste", "Rub in."), ("Paste", "Rest.")]


def test_a_month_is_no_minute():
    with pytest.raises(RuleBroken, match="months"):
        read_seconds("P1M")


def test_every_name_that_goes_out_is_one_of_the_standard():
    said = json_ld.document(college_recipe("R01"))
    assert {name for name in said if not name.startswith("@")} <= NAMES
