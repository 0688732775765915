"""The few figures of a recipe that the book is narrowed and sorted by.

For the list of the book: minutes of one cook with waiting filled, minutes of work, minutes
in an oven, and the cost of a portion as stated. Rounded once, here, to whole pence.

Worked example: stays of 20 and 15 minutes in an oven and 45 in a chiller are 35 oven minutes.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from curriculum.errors import RuleBroken
from curriculum.foods.costs import PackPrice, a_portion, pence
from curriculum.recipes import costing, scaling, timing
from curriculum.recipes.data import RecipeData


@dataclass(frozen=True, slots=True)
class Figures:
    """Times in minutes, None while steps wait in a ring; pence, None while a food has no price.

    None, too, of what nobody has reckoned yet.
    """

    one_cook_minutes: int | None
    work_minutes: int | None
    oven_minutes: int | None
    portion_pence: int | None


def figures_of(recipe: RecipeData, prices: Mapping[str, PackPrice]) -> Figures:
    """The figures of a recipe; ``prices`` gives the pack that each food is costed by."""
    cook = None if timing.loop(recipe) else timing.one_cook(recipe)
    return Figures(
        one_cook_minutes=cook.minutes if cook else None,
        work_minutes=cook.work_minutes if cook else None,
        oven_minutes=oven_minutes(recipe),
        portion_pence=portion_pence(recipe, prices),
    )


def oven_minutes(recipe: RecipeData) -> int:
    """Minutes that food stays in an oven, over all steps."""
    stays = [stay for step in recipe.steps for stay in step.stays]
    return sum(stay.minutes for stay in stays if stay.appliance_kind == "oven")


def portion_pence(recipe: RecipeData, prices: Mapping[str, PackPrice]) -> int | None:
    """What a portion costs, whole pence; None when a food has no price, since a part is no cost.

    None, too, for a draft that cannot be weighed out yet.
    """
    try:
        scaled = scaling.scale(recipe, recipe.portions_stated)
    except RuleBroken:
        return None
    cost = costing.batch_cost(scaled, recipe, prices)
    return None if cost.without_price else pence(a_portion(cost.exact_pence, scaled.portions))
