"""Turns the plain JSON of ``fixtures/`` into the dataclasses that every calculation speaks.

For the loader of the demonstration college and for the builders of the tests. A recipe
file is a sheet without its foods and without the fields that have their defaults; the
foods stand once, in foods.json, and are joined here.
"""

import dataclasses
from collections.abc import Mapping

from curriculum.recipes.data import FoodData, RecipeData
from curriculum.recipes.sheets import SHAPE, read_food, read_sheet, write_food

#: Named pieces stay in the food table: they find what a line means, and no recipe carries them.
_FOOD_FIELDS = frozenset(field.name for field in dataclasses.fields(FoodData)) - {"piece_weights"}


def food_from(entry: dict) -> FoodData:
    """One food from its entry in foods.json; what only the food table keeps is passed over."""
    return read_food({name: value for name, value in entry.items() if name in _FOOD_FIELDS})


def recipe_from(entry: dict, foods: Mapping[str, FoodData]) -> RecipeData:
    """One whole recipe from its file, with every food of its lines.

    A food that is a part of a piece brings the piece with it. KeyError for an unknown food.
    """
    used = dict.fromkeys(line["food"] for each in entry["components"] for line in each["lines"])
    for code in list(used):
        if foods[code].made_from is not None:
            used.setdefault(foods[code].made_from.food)
    return read_sheet({**entry, "shape": SHAPE, "foods": [write_food(foods[code]) for code in used]})
