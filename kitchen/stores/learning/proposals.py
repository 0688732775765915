"""Every proposal that lessons and tests make, from what the queries read.

Plain data in, plain data out. Figures that stand come as ``Figure``; what is in use without one is
the recipe's own over-issue, no allowance, and the food's usable share.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from curriculum.recipes.data import RecipeData
from kitchen.stores.learning import over_issue, usable, wastage
from kitchen.stores.learning.evidence import OVER_ISSUE, WASTAGE, LessonFood, Proposal
from kitchen.stores.learning.figures import Figure, components_with, over_issue_in, techniques_of


def over_issues(
    lessons: Iterable[LessonFood], recipes: Mapping[str, RecipeData], standing: Iterable[Figure]
) -> list[Proposal]:
    """One for each food of over-issue in each recipe that was cooked."""
    stands = {(each.of, each.food): each.amount for each in standing if each.kind == OVER_ISSUE}
    by_line: dict[tuple[str, str], list[LessonFood]] = defaultdict(list)
    for each in lessons:
        if each.food in over_issue_in(recipes[each.recipe]):
            by_line[each.recipe, each.food].append(each)
    found = []
    for (code, food), here in sorted(by_line.items()):
        recipe = recipes[code]
        in_use = stands.get((code, food), over_issue_in(recipe)[food])
        increment = recipe.food(food).increment_milligrams
        found.append(over_issue.propose(food, code, here, in_use, increment, components_with(recipe, food)))
    return [each for each in found if each is not None]


def allowances(
    lessons: Iterable[LessonFood], recipes: Mapping[str, RecipeData], standing: Iterable[Figure]
) -> list[Proposal]:
    """Those that propose something, or that stand already; a class that loses nothing proposes none."""
    worked = {code: techniques_of(recipe) for code, recipe in recipes.items()}
    stands = [each for each in standing if each.kind == WASTAGE]
    by_food: dict[str, list[LessonFood]] = defaultdict(list)
    for each in lessons:
        by_food[each.food].append(each)
    found: list[Proposal] = []
    for food, here in sorted(by_food.items()):
        techniques = {code: by.get(food, ()) for code, by in worked.items()}
        in_use = {each.of: each.amount for each in stands if not each.food}
        in_use |= {each.of: each.amount for each in stands if each.food == food}
        found += wastage.propose(food, here, techniques, in_use)
    return [each for each in found if each.amount or each.in_use]


def usable_shares(tests: Mapping[str, Sequence[usable.Weighed]], in_use: Mapping[str, int]) -> list[Proposal]:
    """One for each food that the college has weighed; ``in_use`` per mille by food."""
    found = (usable.propose(food, weighed, in_use[food]) for food, weighed in sorted(tests.items()))
    return [each for each in found if each is not None]
