"""A recipe as schema.org Recipe in JSON-LD, out and in, lossless for what the standard holds.

What the recipe says itself rules; what came with it and is unchanged goes out as it came (see
``carrying``). A diet is said only where the facts of every food are known and deny what it forbids.
"""

import json

from curriculum.errors import RuleBroken
from curriculum.recipes import timing
from curriculum.recipes.data import RecipeData
from curriculum.recipes.interchange.carrying import with_originals
from curriculum.recipes.interchange.durations import write_minutes
from curriculum.recipes.interchange.json_ld_read import read
from curriculum.recipes.interchange.reading import yield_words
from curriculum.recipes.interchange.words import all_lines, line_words

__all__ = ["document", "own_words", "read", "write"]

#: What no food of a vegetarian dish may be or hold, among the facts of a food.
NOT_VEGETARIAN = ("meat", "fish", "slaughter_by_product", "animal_rennet")


def document(recipe: RecipeData) -> dict[str, object]:
    """The Recipe object. What is carried and is no JSON is left out."""
    return with_originals(recipe, own_words(recipe))


def own_words(recipe: RecipeData) -> dict[str, object]:
    """What the recipe says itself, without what it carries."""
    said: dict[str, object] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": recipe.title,
        "recipeYield": yield_words(recipe),
        "recipeCategory": recipe.level,
        "recipeIngredient": [line_words(recipe, line) for _, line in all_lines(recipe)],
        "recipeInstructions": [
            {"@type": "HowToStep", "position": step.position, "text": step.words} for step in recipe.steps
        ],
        "tool": [{"@type": "HowToTool", "name": each.item.replace("_", " ")} for each in recipe.equipment],
        "keywords": ", ".join(_techniques(recipe)),
        "suitableForDiet": _diet(recipe),
        **_times(recipe),
    }
    return {name: value for name, value in said.items() if value}


def write(recipe: RecipeData) -> str:
    """The document as text: UTF-8 letters kept, two spaces in."""
    return json.dumps(document(recipe), ensure_ascii=False, indent=2) + "\n"


def _techniques(recipe: RecipeData) -> list[str]:
    """The techniques that the steps train, each once, in words."""
    codes = dict.fromkeys(code for step in recipe.steps for code in step.techniques)
    return [code.replace("_", " ") for code in codes]


def _diet(recipe: RecipeData) -> str:
    """The vegetarian diet, where the facts of every food on a line are known and deny all it forbids."""
    foods = [dict(recipe.food(line.food).facts) for _, line in all_lines(recipe)]
    fits = all(facts.get(name) == "no" for facts in foods for name in NOT_VEGETARIAN)
    return "https://schema.org/VegetarianDiet" if foods and fits else ""


def _times(recipe: RecipeData) -> dict[str, str]:
    """One cook's hands, heat and whole time; nothing while no step has minutes, or steps wait in a ring."""
    if not recipe.steps:
        return {}
    try:
        plan = timing.one_cook(recipe)
    except RuleBroken:
        return {}
    heat = sum(
        stay.minutes
        for step in recipe.steps
        for stay in step.stays
        if stay.appliance_kind in ("oven", "ring")
    )
    said = {"prepTime": plan.work_minutes, "cookTime": heat, "totalTime": plan.minutes}
    return {name: write_minutes(minutes) for name, minutes in said.items() if minutes}
