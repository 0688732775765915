"""As bought and prepared, for each line of a scaled batch, with whose share it is.

For the page "Scale it". A yield belongs to the use: a line may override its food.

Worked example: 300 g of trimmed leek at 75 % are 400 g as bought; 360 g of turned potato at
the line's own 55 % are 654.5 g.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import yields
from curriculum.recipes.data import LineData, RecipeData
from curriculum.recipes.scaling import ScaledLine, ScaledRecipe

#: A share of all is no loss.
WHOLE = 1000


@dataclass(frozen=True, slots=True)
class LineYield:
    """One line: prepared and as bought in exact milligrams; ``whose`` the share is, in words."""

    food: str
    component: str
    prepared: Fraction
    bought: Fraction
    per_mille: int
    whose: str


def line_yields(recipe: RecipeData, scaled: ScaledRecipe) -> list[LineYield]:
    """Every line of which less is used than is bought; parts of whole pieces are counted elsewhere."""
    written = {(each.code, line.position): line for each in recipe.components for line in each.lines}
    found = []
    for line in scaled.lines:
        before = written[line.component, line.position]
        share = before.yield_per_mille or recipe.food(line.food).usable_per_mille
        if share < WHOLE and line.give_pieces is None:
            found.append(_yield(line, before, share))
    return found


def _yield(line: ScaledLine, before: LineData, share: int) -> LineYield:
    bought = line.weight_is == "as_bought"
    exact = line.exact_milligrams
    return LineYield(
        line.food,
        line.component,
        yields.usable(exact, share) if bought else exact,
        exact if bought else yields.as_bought(exact, share),
        share,
        "for this use" if before.yield_per_mille else "as the food has it",
    )
