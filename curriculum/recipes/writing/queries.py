"""What the sums beside the forms of a writer need: the foods of a draft, and today's prices."""

from dataclasses import replace

from curriculum.foods.queries import foods_data, prices
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.checking.queries import teaching_for
from curriculum.recipes.data import RecipeData
from curriculum.recipes.writing.so_far import SoFar, so_far


def so_far_of(recipe: RecipeData) -> SoFar:
    """The sums of a draft, whose lines may name foods that it did not have before. Eight queries at most."""
    whole = _with_foods(recipe)
    costs = prices(today_at(the_college()), [food.code for food in whole.foods])
    return so_far(whole, costs, teaching_for(whole))


def _with_foods(recipe: RecipeData) -> RecipeData:
    known = {food.code for food in recipe.foods}
    new = {line.food for each in recipe.components for line in each.lines} - known
    if not new:
        return recipe
    foods = {food.code: food for food in recipe.foods}
    return replace(recipe, foods=tuple((foods_data(sorted(new)) | foods).values()))
