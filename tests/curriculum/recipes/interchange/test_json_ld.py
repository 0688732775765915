import json
from dataclasses import replace

from curriculum.recipes.interchange import json_ld
from tests.builders.cast import shortbread


def test_a_recipe_goes_out_with_grams_steps_and_times():
    recipe = shortbread()
    said = json.loads(json_ld.write(recipe))
    lines = sum(len(component.lines) for component in recipe.components)
    assert said["name"] == recipe.title and len(said["recipeIngredient"]) == lines
    assert all(" g " in line for line in said["recipeIngredient"])
    assert [step["text"] for step in said["recipeInstructions"]] == [step.words for step in recipe.steps]
    assert said["totalTime"].startswith("PT") and "suitableForDiet" not in said


def test_what_was_carried_goes_out_as_it_came_and_never_over_what_the_recipe_says():
    carried = (("recipeCuisine", '["Scots", {"a": 1}]'), ("name", '"Another"'))
    said = json_ld.document(replace(shortbread(), carried=carried))
    assert said["recipeCuisine"] == ["Scots", {"a": 1}] and said["name"] == shortbread().title
