"""Writes the recipe book of the demonstration college: written, checked by another, approved to teach."""

from django.db import transaction

from curriculum.recipes.actions import write_recipe
from curriculum.recipes.approval.actions import approve_to_teach, check, send_for_check
from curriculum.recipes.data import RecipeData
from kitchen.website.demonstration import files
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.reading import food_from, recipe_from

#: Who writes the recipes of the kitchen, and who those of patisserie; each checks the other's.
KITCHEN = frozenset(("R01", "R10", "R11", "R12"))
KITCHEN_LECTURER, PASTRY_LECTURER = "marek", "odile"


def recipes() -> list[RecipeData]:
    """Every recipe of the files with its foods, the ordinary ones before their variants."""
    foods = {each["code"]: food_from(each) for each in files.read("foods.json")["foods"]}
    return [recipe_from(files.read(name), foods) for name in files.recipe_names()]


@transaction.atomic
def write_book() -> None:
    """Write, check and approve every recipe; foods and techniques must stand."""
    for recipe in recipes():
        of_kitchen = (recipe.variant_of or recipe.code) in KITCHEN
        pair = (KITCHEN_LECTURER, PASTRY_LECTURER) if of_kitchen else (PASTRY_LECTURER, KITCHEN_LECTURER)
        writer, reader = (person(code) for code in pair)
        version = write_recipe(recipe=recipe, by=writer)
        send_for_check(version=version, by=writer)
        approve_to_teach(version=check(version=version, by=reader), by=reader)
