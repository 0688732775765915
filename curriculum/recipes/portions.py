"""How many portions a recipe gives: by what it weighs when it is finished, and after rejects.

For the checks before a second person reads a version. A recipe says how many portions it is
stated for and how many are to be had; where it also says what its parts weigh when finished
and how much of each makes a portion, the second figure can be reckoned: the part that gives
the fewest portions decides, whole portions count, and then the rejects are taken off.

Worked example: meringue of 360 g at 45 g, curd of 456 g at 45 g and cream of 530 g at 65 g
give 8, 10 and 8 portions, so 8; with one in ten rejected 7.2, so 7 are to be had.
"""

from fractions import Fraction
from math import floor

from curriculum.recipes.data import RecipeData


def by_weight(recipe: RecipeData) -> int | None:
    """Whole portions that the finished weights give; None where none are written."""
    parts = [
        Fraction(part.milligrams, part.milligrams_per_portion)
        for part in recipe.finished
        if part.milligrams_per_portion
    ]
    return floor(min(parts)) if parts else None


def after_rejects(portions: int, reject_per_mille: int) -> int:
    """Whole portions left when so many in a thousand are rejected."""
    return floor(portions * Fraction(1000 - reject_per_mille, 1000))


def to_be_had(recipe: RecipeData) -> int | None:
    """Whole portions by weight, less the rejects; None where no finished weight is written."""
    portions = by_weight(recipe)
    return None if portions is None else after_rejects(portions, recipe.reject_per_mille)
