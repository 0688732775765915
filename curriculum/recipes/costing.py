"""What one bench's batch of a recipe costs.

For the recipe page and budgets. Costed is what is *used*, as it is handed out: the leek
as bought, the egg for its yolk. Eggs count by exact pieces (4.3 eggs), since what is left
goes back; whole eggs are a matter of the kit. Water from the tap costs nothing.
"""

from collections.abc import Mapping

from curriculum.foods import costs
from curriculum.recipes import scaling
from curriculum.recipes.data import RecipeData


def uses_of(scaled: scaling.ScaledRecipe, recipe: RecipeData) -> list[costs.Use]:
    """Every food of a batch as it is handed out; pieces of a whole food joined over its parts."""
    weighed = [
        costs.Use(line.give_food, line.give_milligrams) for line in scaled.lines if line.give_pieces is None
    ]
    pieces = scaling.pieces_to_issue(scaled.lines, recipe)
    return weighed + [
        costs.Use(code, count * (_weight(recipe, code)), count) for code, count in pieces.items()
    ]


def batch_cost(
    scaled: scaling.ScaledRecipe, recipe: RecipeData, prices: Mapping[str, costs.PackPrice]
) -> costs.Cost:
    """Exact pence of one bench's batch, and the foods without a price."""
    from_tap = frozenset(food.code for food in recipe.foods if food.from_tap)
    return costs.total(uses_of(scaled, recipe), prices, from_tap)


def _weight(recipe: RecipeData, code: str) -> int:
    return next((food.piece_milligrams or 0 for food in recipe.foods if food.code == code), 0)
