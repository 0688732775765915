"""Recipes and foods of the demonstration college, for any test that needs real input.

``college_recipe("R01")`` is the whole RecipeData with its foods; ``college_food`` one
FoodData. Change one with ``dataclasses.replace``. The codes: R01 to R12 and the
variants V1 (R01 without gluten), V2 (R01 without egg), V3 (R03 without milk),
V4 (R04 without nuts), V5 (R06 without egg).
"""

import json
from functools import cache
from pathlib import Path

from curriculum.recipes.data import FoodData, RecipeData
from kitchen.website.demonstration.reading import food_from, recipe_from

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"

RECIPE_CODES = tuple(f"R{number:02d}" for number in range(1, 13))
VARIANT_CODES = tuple(f"V{number}" for number in range(1, 6))


@cache
def fixture(name: str) -> dict:
    """One file of ``fixtures/`` as it was read: ``fixture("rooms.json")``. Do not change it."""
    return json.loads((FIXTURES / name).read_text(encoding="utf-8"))


@cache
def college_foods() -> dict[str, FoodData]:
    """Every food of the demonstration college by its code."""
    return {each["code"]: food_from(each) for each in fixture("foods.json")["foods"]}


def college_food(code: str) -> FoodData:
    """One food of the demonstration college, such as "unsalted_butter"."""
    return college_foods()[code]


@cache
def college_recipe(code: str) -> RecipeData:
    """One recipe or variant of the demonstration college with its foods."""
    return recipe_from(fixture(f"recipes/{code}.json"), college_foods())
