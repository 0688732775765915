"""A recipe as schema.org Recipe in JSON-LD, with what it carried when it was brought in.

What the recipe says itself rules; a carried property of another name goes out as it came.
No diet is claimed: suitability is said only where somebody carried it in.
"""

import json

from curriculum.errors import RuleBroken
from curriculum.recipes import timing
from curriculum.recipes.data import RecipeData
from curriculum.recipes.interchange.durations import write_minutes
from curriculum.recipes.interchange.words import all_lines, line_words, yield_words


def document(recipe: RecipeData) -> dict[str, object]:
    """The Recipe object. ValueError when something carried is not JSON."""
    said: dict[str, object] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": recipe.title,
        "recipeYield": yield_words(recipe),
        "recipeIngredient": [line_words(recipe, line) for _, line in all_lines(recipe)],
        "recipeInstructions": [
            {"@type": "HowToStep", "position": step.position, "text": step.words} for step in recipe.steps
        ],
        **_times(recipe),
    }
    if recipe.equipment:
        said["tool"] = [{"@type": "HowToTool", "name": each.item} for each in recipe.equipment]
    for name, text in recipe.carried:
        said.setdefault(name, json.loads(text))
    return said


def write(recipe: RecipeData) -> str:
    """The document as text: UTF-8 letters kept, two spaces in."""
    return json.dumps(document(recipe), ensure_ascii=False, indent=2) + "\n"


def _times(recipe: RecipeData) -> dict[str, str]:
    """One cook's hands and whole time; nothing when there is no step or the steps wait in a ring."""
    if not recipe.steps:
        return {}
    try:
        plan = timing.one_cook(recipe)
    except RuleBroken:
        return {}
    return {"prepTime": write_minutes(plan.work_minutes), "totalTime": write_minutes(plan.minutes)}
