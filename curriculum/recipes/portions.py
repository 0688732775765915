"""How many portions a recipe gives: by what it weighs when it is finished, and after rejects.

For the checks before a second person reads a version. A recipe says how many portions it is
stated for and how many are to be had; where it also says what its parts weigh when finished
and how much of each makes a portion, the second figure can be reckoned: the part that gives
the fewest portions decides, whole portions count, and then the rejects are taken off.

Worked example: meringue of 360 g at 45 g, curd of 456 g at 45 g and cream of 530 g at 65 g
give 8, 10 and 8 portions, so 8; with one in ten rejected 7.2, so 7 are to be had.

A batch that is scaled gives each part in proportion to what goes into it: whole tins of
custard, portions of cream. The part that gives the fewest portions is named (``of_batch``).
"""

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from curriculum.recipes.data import FinishedData, RecipeData
from curriculum.recipes.scaling import ScaledRecipe, scale


@dataclass(frozen=True, slots=True)
class PartGives:
    """What some components together weigh when finished, and the whole portions they give."""

    components: tuple[str, ...]
    milligrams: Fraction
    portions: int


@dataclass(frozen=True, slots=True)
class Obtainable:
    """Portions that a batch gives after rejects, and its parts; ``scarcest`` decides."""

    portions: int
    parts: tuple[PartGives, ...]
    reject_per_mille: int

    @property
    def scarcest(self) -> PartGives:
        """The part that gives the fewest portions, the first of them."""
        return min(self.parts, key=lambda part: part.portions)


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


def of_batch(recipe: RecipeData, scaled: ScaledRecipe, size: Fraction = Fraction(1)) -> Obtainable | None:
    """What a scaled batch gives, with portions ``size`` times as heavy; None without finished weights."""
    parts = tuple(
        _gives(recipe, scaled, part, size) for part in recipe.finished if part.milligrams_per_portion
    )
    if not parts:
        return None
    fewest = min(part.portions for part in parts)
    return Obtainable(after_rejects(fewest, recipe.reject_per_mille), parts, recipe.reject_per_mille)


def batch_for(recipe: RecipeData, wanted: int, size: Fraction = Fraction(1)) -> int | None:
    """The least number of portions to scale for so that ``wanted`` are to be had.

    None without finished weights, and where not even twice the portions would do.
    """
    for portions in range(wanted, 2 * wanted + 1):
        gives = of_batch(recipe, scale(recipe, portions, size=size), size)
        if gives is None:
            return None
        if gives.portions >= wanted:
            return portions
    return None


def _gives(recipe: RecipeData, scaled: ScaledRecipe, part: FinishedData, size: Fraction) -> PartGives:
    milligrams = part.milligrams * _grown(recipe, scaled, part.components)
    return PartGives(part.components, milligrams, floor(milligrams / (part.milligrams_per_portion * size)))


def _grown(recipe: RecipeData, scaled: ScaledRecipe, codes: tuple[str, ...]) -> Fraction:
    """How much larger the components together are made, by what is weighed into them."""
    before = {each.code: sum(line.milligrams for line in each.lines) for each in recipe.components}
    total = sum(before[code] for code in codes if code in before)
    if not total:
        return scaled.factor
    grown = sum(before[each.code] * each.factor for each in scaled.components if each.code in codes)
    return Fraction(grown) / total
