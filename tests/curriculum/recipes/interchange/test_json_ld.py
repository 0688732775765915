import json
from dataclasses import replace

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.data import StayData, StepData, WayData
from curriculum.recipes.interchange import json_ld
from tests.builders.cast import shortbread
from tests.builders.interchange import ROUNDS
from tests.builders.recipes import college_recipe


def test_a_recipe_goes_out_with_grams_steps_and_times():
    recipe = shortbread()
    said = json.loads(json_ld.write(recipe))
    lines = sum(len(component.lines) for component in recipe.components)
    assert said["name"] == recipe.title and len(said["recipeIngredient"]) == lines
    assert all(" g " in line for line in said["recipeIngredient"])
    assert [step["text"] for step in said["recipeInstructions"]] == [step.words for step in recipe.steps]
    assert said["totalTime"].startswith("PT") and said["recipeCategory"] == recipe.level


def test_a_diet_is_said_only_where_every_food_is_known_to_fit():
    for code in ("R01", "R04", "R09"):
        recipe = college_recipe(code)
        said = json_ld.document(recipe).get("suitableForDiet")
        facts = [dict(recipe.food(line.food).facts) for each in recipe.components for line in each.lines]
        fits = all(fact.get(name) == "no" for fact in facts for name in json_ld.NOT_VEGETARIAN)
        assert bool(said) == fits
    first = college_recipe("R01")
    unknown = tuple(replace(food, facts=()) for food in first.foods)
    assert "suitableForDiet" not in json_ld.document(replace(first, foods=unknown))


def test_what_was_carried_goes_out_as_it_came_and_never_over_what_the_recipe_says():
    carried = (("recipeCuisine", '["Scots", {"a": 1}]'), ("name", '"Another"'))
    said = json_ld.document(replace(shortbread(), carried=carried))
    assert said["recipeCuisine"] == ["Scots", {"a": 1}] and said["name"] == shortbread().title


def test_one_recipe_is_read_whole():
    read = json_ld.read(ROUNDS)
    assert read.title == "Oat & butter rounds" and (read.portions, read.unit) == (12, "round")
    assert [step.words for step in read.steps][0] == "Rub the butter into the flour."
    assert [(name, seconds) for name, seconds, _ in read.times] == [("prepTime", 1200), ("cookTime", 900)]
    assert read.tools == ("mixing bowl",) and read.not_read == ()


@pytest.mark.parametrize(
    "wrap",
    [
        lambda one: [one],
        lambda one: {"@graph": [{"@type": "WebPage"}, one]},
        lambda one: {"@type": "WebPage", "mainEntity": one},
        lambda one: [[], {"@graph": [[one]]}],
    ],
)
def test_a_recipe_is_found_in_lists_graphs_and_pages(wrap):
    assert json_ld.read(wrap(ROUNDS)).title == "Oat & butter rounds"


@pytest.mark.parametrize(
    ("said", "steps"),
    [
        ("Mix.\nBake.", [("Mix.", ""), ("Bake.", "")]),
        ("1. Mix.\r\n2. Bake.", [("Mix.", ""), ("Bake.", "")]),
        ("<ol><li>Mix.</li><li>Bake &amp; cool.</li></ol>", [("Mix.", ""), ("Bake & cool.", "")]),
        (["Mix."], [("Mix.", "")]),
        ({"@type": "HowToStep", "name": "Mix."}, [("Mix.", "")]),
        (
            [{"@type": "HowToSection", "name": "Paste", "itemListElement": [{"text": "Mix."}]}, "Bake."],
            [("Mix.", "Paste"), ("Bake.", "")],
        ),
        ({"itemListElement": [{"@type": "ListItem", "item": {"text": "Mix."}}]}, [("Mix.", "")]),
        (None, []),
    ],
)
def test_instructions_are_read_in_every_shape_of_the_standard(said, steps):
    read = json_ld.read(ROUNDS | {"recipeInstructions": said})
    assert [(step.words, step.section) for step in read.steps] == steps


def test_what_is_not_read_is_named_with_its_reason():
    lines, steps = ["1 g salt", {}, 7, ""], [[], {"a": 1}]
    bad = {"prepTime": "P1M", "recipeIngredient": lines, "recipeInstructions": steps}
    read = json_ld.read(ROUNDS | bad)
    said = {each.what: each.why for each in read.not_read}
    assert "months" in said["prepTime"] and "Ingredient “{}”" in said
    assert 'Instruction “{"a": 1}”' in said
    assert [line.text for line in read.lines] == ["1 g salt", "7"]


def test_other_recipes_of_a_file_are_named():
    read = json_ld.read([ROUNDS, {"@type": "Recipe", "name": "Second"}])
    assert [each.what for each in read.not_read] == ["Recipe “Second”"]


@pytest.mark.parametrize("value", [{}, [], "Recipe", 7, None, {"@type": "Thing"}, {"@type": ["HowTo", 3]}])
def test_what_holds_no_recipe_is_refused(value):
    with pytest.raises(RuleBroken) as refused:
        json_ld.read(value)
    assert refused.value.code == "no_recipe"


@pytest.mark.parametrize("name", ["recipeIngredient", "recipeInstructions"])
def test_ten_thousand_lines_are_refused_in_words(name):
    with pytest.raises(RuleBroken, match="These are 10,000|These are 61"):
        json_ld.read(ROUNDS | {name: ["1 g salt"] * 10_000})


def test_a_property_too_large_to_keep_is_named():
    read = json_ld.read(ROUNDS | {"image": "x" * 150_000})
    assert [each.what for each in read.not_read] == ["“image”"] and "image" not in dict(read.carried)


def test_heat_is_what_stands_in_an_oven_or_on_a_ring_and_nothing_else():
    stays = (StayData(10, "ring"), StayData(20, "oven", 1800, "fan"), StayData(40, "chiller"), StayData(5))
    step = StepData(1, "Cook.", (WayData("hand", 4),), stays)
    said = json_ld.document(replace(shortbread(), steps=(step,)))
    assert (said["prepTime"], said["cookTime"], said["totalTime"]) == ("PT4M", "PT30M", "PT1H19M")
