"""Where rounding moves a ratio that matters, by how much, and the three ways out with their figures.

For the page "Scale it". Scaling exactly moves no ratio; the step of the scale may. What
matters in a component with flour is every line as a share of its flour (fat to flour,
raising agent to flour, the baker's percentages); in what is set, the gel as a share of the
whole mass to be set. A ratio that rounding moves by more than 3 % is named (common
practice, no source), with three ways out, each with the figure it would give:

* pool: the fewest benches for which one weighing together keeps the ratio;
* pre-mix: so many batches of it mixed into the flour or sugar of as many batches, weighed
  back out by the batch;
* a finer scale: the coarsest step that keeps it.

Worked example: a quarter of a dough takes 125 g of flour and 3.75 g of yeast, 3 %. On a 5 g
scale 5 g are weighed, 4 %: the ratio has moved by a third. Pooled over four benches 15 g are
exact; on a scale of 0.5 g 4 g are 6.7 % off and on 0.1 g 3.8 g are 1.3 % off.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import rounding
from curriculum.foods.rounding import WORTH_NAMING
from curriculum.recipes.data import FoodData, RecipeData
from curriculum.recipes.scaling import ScaledComponent, ScaledLine, ScaledRecipe
from curriculum.recipes.weighing import OF_THE_BOOK, Scales, weigh, with_step

#: What a food of a dough is called in a ratio.
PART_WORDS = {
    "fat": "fat",
    "liquid": "liquid",
    "egg": "egg",
    "sugar": "sugar",
    "raising": "raising agent",
    "salt": "salt",
    "gel": "gel",
}
#: What can be mixed dry into flour or sugar and weighed back out.
DRY_PARTS = frozenset(("raising", "salt", "gel"))
CARRIERS = frozenset(("flour", "sugar"))
#: Steps of scales that kitchens have, coarse to fine, in milligrams (common practice, no source).
FINER_STEPS = (1000, 500, 100, 10)
#: Batches that a kitchen pre-mixes (common practice, no source).
PREMIX_BATCHES = (2, 5, 10, 20, 50, 100)
#: These rule by a cue, a pan or a weight to reach, so a ratio of what is weighed says nothing.
BY_OTHER_MEANS = frozenset(("vessel", "frying_fat", "evaporating", "range", "minimum_mass"))


@dataclass(frozen=True, slots=True)
class Pooled:
    """Weigh for ``benches`` together: so many milligrams, and how far the ratio is then off."""

    benches: int
    milligrams: int
    moved: Fraction


@dataclass(frozen=True, slots=True)
class Premixed:
    """Mix ``milligrams`` into ``carrier_milligrams`` for ``batches``; weigh ``each`` of it a batch."""

    batches: int
    carrier: str
    milligrams: int
    carrier_milligrams: int
    each: int
    moved: Fraction


@dataclass(frozen=True, slots=True)
class Finer:
    """On a scale of ``step`` milligrams: what it shows, and how far the ratio is then off."""

    step: int
    milligrams: int
    moved: Fraction


@dataclass(frozen=True, slots=True)
class MovedRatio:
    """One ratio that rounding moves by ``moved`` (signed), with the ways out that exist.

    ``what`` is "fat to flour" or "gel to the mass to be set"; ``exact`` and ``issued`` the
    ratio before and after; weights in milligrams.
    """

    component: str
    food: str
    what: str
    exact: Fraction
    issued: Fraction
    exact_milligrams: Fraction
    milligrams: int
    pooled: Pooled | None
    premixed: Premixed | None
    finer: Finer | None

    @property
    def moved(self) -> Fraction:
        """How far the ratio is off, as a share of it, with its sign."""
        return self.issued / self.exact - 1

    @property
    def is_pooled(self) -> bool:
        """Whether weighing the line once for several benches keeps it: the scale misses it for one."""
        off = rounding.relative_error(self.exact_milligrams, self.milligrams)
        return self.pooled is not None and abs(off) > rounding.WORTH_NAMING


@dataclass(frozen=True, slots=True)
class _Pair:
    """A line and what it is a ratio of: (exact milligrams, food) of each."""

    line: ScaledLine
    food: FoodData
    base: tuple[tuple[Fraction, FoodData], ...]
    what: str

    @property
    def exact(self) -> Fraction:
        return self.line.exact_milligrams / sum(each for each, _ in self.base)

    def weighed(self, times: int, scales: Scales) -> tuple[int, Fraction]:
        """(milligrams shown, ratio) when so many batches are weighed at once."""
        shown = weigh(self.line.exact_milligrams * times, self.food, scales).milligrams
        base = sum(weigh(each * times, food, scales).milligrams for each, food in self.base)
        return shown, Fraction(shown, base)

    def moved(self, times: int, scales: Scales) -> Fraction:
        return self.weighed(times, scales)[1] / self.exact - 1


def moved_ratios(
    recipe: RecipeData, scaled: ScaledRecipe, benches: int = 1, scales: Scales = OF_THE_BOOK
) -> list[MovedRatio]:
    """Every ratio of a batch that rounding moves by more than 3 %, in the order of its lines."""
    found = []
    for pair in _pairs(recipe, scaled):
        if abs(pair.moved(1, scales)) > WORTH_NAMING:
            shown, issued = pair.weighed(1, scales)
            found.append(
                MovedRatio(
                    pair.line.component,
                    pair.food.code,
                    pair.what,
                    pair.exact,
                    issued,
                    pair.line.exact_milligrams,
                    shown,
                    _pooled(pair, benches, scales),
                    _premixed(pair, recipe, scaled, scales),
                    _finer(pair, scales),
                )
            )
    return found


def _pairs(recipe: RecipeData, scaled: ScaledRecipe) -> Iterator[_Pair]:
    for component in scaled.components:
        lines = [line for line in component.lines if _counts(line)]
        flour = tuple(_weights(recipe, lines, "flour"))
        for line in lines:
            food = recipe.food(line.food)
            if food.dough_part == "gel" or line.rule == "gelling":
                yield _Pair(line, food, _set_mass(recipe, scaled, component), "gel to the mass to be set")
            elif flour and food.dough_part in PART_WORDS:
                yield _Pair(line, food, flour, f"{PART_WORDS[food.dough_part]} to flour")


def _counts(line: ScaledLine) -> bool:
    return line.part == "recipe" and line.rule not in BY_OTHER_MEANS and line.exact_milligrams > 0


def _weights(
    recipe: RecipeData, lines: Iterable[ScaledLine], part: str
) -> Iterator[tuple[Fraction, FoodData]]:
    for line in lines:
        food = recipe.food(line.food)
        if food.dough_part == part:
            yield line.exact_milligrams, food


def _set_mass(
    recipe: RecipeData, scaled: ScaledRecipe, component: ScaledComponent
) -> tuple[tuple[Fraction, FoodData], ...]:
    """The whole mass to be set: the component with those that are finished together with it."""
    together = {component.code}
    for part in recipe.finished:
        if component.code in part.components:
            together |= set(part.components)
    return tuple(
        (line.exact_milligrams, recipe.food(line.food))
        for each in scaled.components
        if each.code in together
        for line in each.lines
        if line.part == "recipe"
    )


def _pooled(pair: _Pair, benches: int, scales: Scales) -> Pooled | None:
    for count in range(2, benches + 1):
        moved = pair.moved(count, scales)
        if abs(moved) <= WORTH_NAMING:
            return Pooled(count, pair.weighed(count, scales)[0], moved)
    return None


def _premixed(pair: _Pair, recipe: RecipeData, scaled: ScaledRecipe, scales: Scales) -> Premixed | None:
    if pair.food.dough_part not in DRY_PARTS:
        return None
    carrier = _carrier(recipe, scaled, pair)
    if carrier is None:
        return None
    bulk = recipe.food(carrier.food)
    for batches in PREMIX_BATCHES:
        small = weigh(pair.line.exact_milligrams * batches, pair.food, scales)
        large = weigh(carrier.exact_milligrams * batches, bulk, scales)
        moved = Fraction(small.milligrams, large.milligrams) / (small.exact / large.exact) - 1
        if abs(moved) <= WORTH_NAMING:
            each = weigh(pair.line.exact_milligrams + carrier.exact_milligrams, bulk, scales)
            return Premixed(batches, bulk.code, small.milligrams, large.milligrams, each.milligrams, moved)
    return None


def _carrier(recipe: RecipeData, scaled: ScaledRecipe, pair: _Pair) -> ScaledLine | None:
    """The largest line of flour or sugar in the same component."""
    component = next(each for each in scaled.components if each.code == pair.line.component)
    dry = [line for line in component.lines if recipe.food(line.food).dough_part in CARRIERS]
    return max(dry, key=lambda line: line.exact_milligrams, default=None)


def _finer(pair: _Pair, scales: Scales) -> Finer | None:
    now = weigh(pair.line.exact_milligrams, pair.food, scales).step
    for step in FINER_STEPS:
        if step >= now:
            continue
        finer = Scales(step, step, step)
        moved = pair.moved(1, finer)
        if abs(moved) <= WORTH_NAMING:
            shown = with_step(pair.line.exact_milligrams, pair.food, step)
            return Finer(step, shown.milligrams, moved)
    return None
