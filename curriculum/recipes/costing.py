"""What one bench's batch of a recipe costs.

For the recipe page and budgets. Costed is what is *used*, as it is handed out: the leek
as bought, the egg for its yolk. Eggs count by exact pieces (4.3 eggs), since what is left
goes back; whole eggs are a matter of the kit. Water from the tap costs nothing.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import costs
from curriculum.recipes import scaling
from curriculum.recipes.data import RecipeData
from curriculum.recipes.whole_class import Bought


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


@dataclass(frozen=True, slots=True)
class Costs:
    """What a class costs, in exact pence: as used, and in the whole packs that are bought.

    ``a_portion`` and ``a_learner`` are of what is used. ``share`` is the cost of a portion over
    its selling price, ``price_pence`` what to ask so that the food is the wanted share of it; both
    None when not asked for. ``without_price`` names foods that no pack gives a price for.
    """

    a_bench: Fraction
    used: Fraction
    bought: int
    a_portion: Fraction
    a_learner: Fraction | None
    share: Fraction | None
    price_pence: Fraction | None
    without_price: tuple[str, ...]


def class_costs(
    batch: costs.Cost,
    bought: Iterable[Bought | None],
    benches: int,
    portions: int,
    *,
    learners: int | None = None,
    selling_pence: int | None = None,
    share_per_mille: int | None = None,
) -> Costs:
    """The costs of so many benches of one batch of ``portions``, for so many ``learners`` of the class."""
    used = batch.exact_pence * benches
    portion = costs.a_portion(batch.exact_pence, portions)
    return Costs(
        a_bench=batch.exact_pence,
        used=used,
        bought=sum(each.pence for each in bought if each is not None),
        a_portion=portion,
        a_learner=used / learners if learners else None,
        share=costs.cost_share(portion, selling_pence) if selling_pence else None,
        price_pence=costs.price_for_share(portion, Fraction(share_per_mille, 1000))
        if share_per_mille
        else None,
        without_price=batch.without_price,
    )


def _weight(recipe: RecipeData, code: str) -> int:
    return next((food.piece_milligrams or 0 for food in recipe.foods if food.code == code), 0)
