"""The parts of a draft that people write, and their fingerprints, for comparing under a lock.

Each function gives the part of a recipe that one form is about; None where it is gone.
"""

import hashlib
from collections.abc import Collection
from dataclasses import replace

from curriculum.recipes.data import ComponentData, LineData, RecipeData, StepData


def fingerprint(part: object) -> str:
    """A digest of a part: the same for the same words, figures and order."""
    return hashlib.sha256(repr(part).encode("utf-8", "surrogatepass")).hexdigest()[:16]


def whole(recipe: RecipeData) -> RecipeData:
    """The draft without its foods, whose labels and prices are not the writer's."""
    return replace(recipe, foods=())


def head(recipe: RecipeData) -> RecipeData:
    """What stands above the components: title, portions, tins, finished weights, equipment."""
    return replace(recipe, foods=(), components=(), steps=())


def component_in(recipe: RecipeData, code: str) -> ComponentData | None:
    """The component of that code with its lines."""
    return next((each for each in recipe.components if each.code == code), None)


def lines_in(recipe: RecipeData, code: str, positions: Collection[int]) -> tuple[LineData, ...]:
    """The lines of a component at these positions."""
    found = [line for each in recipe.components if each.code == code for line in each.lines]
    return tuple(line for line in found if line.position in positions)


def step_in(recipe: RecipeData, position: int) -> StepData | None:
    """The step at that position."""
    return next((step for step in recipe.steps if step.position == position), None)
