"""What a whole class needs of each food: benches multiplied exactly, what rounding adds, what is bought.

For the page "Scale it". The class needs the number of benches times the exact batch: no class
of scaling acts between one bench and seventeen, so seventeen benches take seventeen times
the salt. What leaves the scale is more or less than that, and the difference is said:

    given to benches + weighed once for all = needed + allowance

What a scale cannot show for one bench may be weighed once for all benches (the pool) and
shared out. Purchases are rounded up, the class's sum once, to whole packs.

Worked example: 17 benches of 0.3 g of nutmeg need 5.1 g. On a scale of 0.5 g a bench is given
0.5 g, so 8.5 g leave it: an allowance of 3.4 g. Pooled, 5.0 g are weighed: 0.1 g short.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import costs, rounding, yields
from curriculum.foods.costs import PackPrice
from curriculum.recipes import scaling
from curriculum.recipes.data import FoodData, RecipeData
from curriculum.recipes.scaling import ScaledLine, ScaledRecipe
from curriculum.recipes.weighing import OF_THE_BOOK, Scales, weigh


@dataclass(frozen=True, slots=True)
class Bought:
    """Whole packs that cover a need, what they cost and what they hold too much, in milligrams."""

    packs: int
    pack: PackPrice
    over_milligrams: Fraction
    over_pieces: Fraction | None = None

    @property
    def pence(self) -> int:
        """The price of all packs."""
        return self.packs * self.pack.pence


@dataclass(frozen=True, slots=True)
class ClassNeed:
    """What a class needs of one food, as benches are given it; exact milligrams where not said.

    ``benches_milligrams`` is the sum of what each bench is given, ``pool_milligrams`` what is
    weighed once for all. ``pieces`` is exact where it is handed out by the piece, then whole
    pieces are given bench by bench. ``to_buy`` is as bought; ``bought`` None without a price.
    """

    food: str
    name: str
    bench_exact: Fraction
    needed: Fraction
    benches_milligrams: Fraction
    pool_milligrams: Fraction
    to_buy: Fraction
    pieces: Fraction | None = None
    from_tap: bool = False
    bought: Bought | None = None
    piece_milligrams: int = 0

    @property
    def allowance(self) -> Fraction:
        """What rounding adds (or, below nothing, leaves out)."""
        return self.benches_milligrams + self.pool_milligrams - self.needed


def class_needs(
    recipe: RecipeData,
    scaled: ScaledRecipe,
    benches: int,
    prices: Mapping[str, PackPrice],
    scales: Scales = OF_THE_BOOK,
    pool: bool = False,
) -> list[ClassNeed]:
    """Every food of a class in the order of its first line; ``pool`` weighs once what scales miss."""
    pieces = scaling.pieces_to_issue(scaled.lines, recipe)
    codes = dict.fromkeys(line.give_food for line in scaled.lines)
    found = []
    for code in codes:
        food = next((each for each in recipe.foods if each.code == code), None)
        if food is None:
            continue
        if code in pieces:
            found.append(_counted(food, pieces[code], benches, prices))
        else:
            lines = [line for line in scaled.lines if line.give_food == code]
            found.append(_weighed(recipe, food, lines, benches, prices, scales, pool))
    return found


def bought(use: costs.Use, price: PackPrice | None) -> Bought | None:
    """Whole packs for a use; by the piece where both speak of pieces."""
    if price is None:
        return None
    if use.pieces is not None and price.pieces is not None:
        packs = rounding.up(use.pieces, price.pieces) // price.pieces
        each = use.milligrams / use.pieces if use.pieces else Fraction(0)
        over = packs * price.pieces - use.pieces
        return Bought(packs, price, over * each, over)
    packs = rounding.up(use.milligrams, price.milligrams) // price.milligrams
    return Bought(packs, price, packs * price.milligrams - use.milligrams)


def _counted(food: FoodData, pieces: Fraction, benches: int, prices: Mapping[str, PackPrice]) -> ClassNeed:
    each = food.piece_milligrams or 0
    needed = pieces * benches * each
    pooled = Fraction(rounding.whole_pieces(pieces * benches))
    return ClassNeed(
        food.code,
        food.name,
        pieces * each,
        needed,
        Fraction(rounding.whole_pieces(pieces) * benches * each),
        Fraction(0),
        pooled * each,
        pieces,
        bought=bought(costs.Use(food.code, pooled * each, pooled), prices.get(food.code)),
        piece_milligrams=each,
    )


def _weighed(
    recipe: RecipeData,
    food: FoodData,
    lines: list[ScaledLine],
    benches: int,
    prices: Mapping[str, PackPrice],
    scales: Scales,
    pool: bool,
) -> ClassNeed:
    exact = [line.give_milligrams for line in lines]
    alone = [weigh(each, food, scales) for each in exact]
    together = [pool and benches > 1 and abs(each.error) > rounding.WORTH_NAMING for each in alone]
    given = sum(each.milligrams for each, pooled in zip(alone, together, strict=True) if not pooled)
    shared = sum((each for each, pooled in zip(exact, together, strict=True) if pooled), Fraction(0))
    need = sum(exact, Fraction(0)) * benches
    once = weigh(shared * benches, food, scales).milligrams if shared else 0
    buy = sum((_as_bought(recipe, line) for line in lines), Fraction(0)) * benches
    return ClassNeed(
        food.code,
        food.name,
        sum(exact, Fraction(0)),
        need,
        Fraction(given * benches),
        Fraction(once),
        buy,
        from_tap=food.from_tap,
        bought=None if food.from_tap else bought(costs.Use(food.code, buy), prices.get(food.code)),
    )


def _as_bought(recipe: RecipeData, line: ScaledLine) -> Fraction:
    """What is bought for a line: what the stores prepare was more before."""
    return (
        yields.as_bought(line.give_milligrams, share_of(recipe, line))
        if line.issued == "prepared"
        else (line.give_milligrams)
    )


def share_of(recipe: RecipeData, line: ScaledLine) -> int:
    """The usable share of a line in per mille: its own, or that of its food."""
    component = next(each for each in recipe.components if each.code == line.component)
    written = next(each for each in component.lines if each.position == line.position)
    return written.yield_per_mille or recipe.food(line.food).usable_per_mille
