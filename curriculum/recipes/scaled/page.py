"""The page "Scale it", worked out: everything as words and figures ready to print.

For its view. Plain data in, plain data out; the template only places it. The sums stand in
``scaling``, ``ratios``, ``reach``, ``egg_counts``, ``whole_class``, ``bakers``, ``costing``.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.foods.costs import PackPrice
from curriculum.recipes import (
    costing,
    egg_costs,
    egg_counts,
    portions,
    ratios,
    reach,
    scaling,
    water,
    whole_class,
)
from curriculum.recipes.data import RecipeData
from curriculum.recipes.scaled import notices, tables
from curriculum.recipes.scaled.asked import Asked
from curriculum.recipes.scaled.lines import (
    Acted,
    ComponentRow,
    component_rows,
    factor_words,
    rules_that_acted,
)
from curriculum.recipes.scaled.notices import Notice
from curriculum.recipes.scaled.tables import DoughRow, EggRow, NeedRow, YieldRow
from curriculum.recipes.scaling import ScaledRecipe

#: What bakers call liquid, whose temperature is set.
LIQUID = "liquid"


@dataclass(frozen=True, slots=True)
class ScaledPage:
    """One recipe for a class, ready to print. ``hand`` is where a hand is needed."""

    code: str
    title: str
    number: int
    facts: str
    slip: tuple[tuple[str, str], ...]
    words: tuple[str, ...]
    hand: tuple[Notice, ...]
    decide: tuple[Notice, ...]
    components: tuple[ComponentRow, ...]
    rules: tuple[Acted, ...]
    needs: tuple[NeedRow, ...]
    eggs: tuple[EggRow, ...]
    gives: tuple[str, ...]
    baking: tuple[str, ...]
    yields: tuple[YieldRow, ...]
    doughs: tuple[DoughRow, ...]
    water: tuple[str, ...]
    costs: tuple[tuple[str, str], ...]
    joint: tuple[str, ...]
    without_price: tuple[str, ...]

    @property
    def far(self) -> bool:
        """Whether the scale is more than 3 % off anywhere."""
        return any(line.far for component in self.components for line in component.lines)


@dataclass(frozen=True, slots=True)
class Book:
    """What the page needs of the book beside the recipe: prices, parts of pieces, who uses them."""

    prices: Mapping[str, PackPrice]
    parts: tuple[egg_counts.PartOf, ...] = ()
    uses: tuple[egg_counts.PartUse, ...] = ()


def batch_of(recipe: RecipeData, asked: Asked) -> tuple[RecipeData, ScaledRecipe]:
    """The recipe with the eggs in hand, and one bench's batch. RuleBroken as ``scaling.scale``."""
    sized = egg_counts.with_size(recipe, asked.shell_milligrams) if asked.shell_milligrams else recipe
    size = asked.size(recipe)
    return sized, scaling.scale(sized, asked.portions, asked.tins, size=size, filled=asked.filled)


def page_of(recipe: RecipeData, asked: Asked, book: Book) -> ScaledPage:
    """Everything of the page. RuleBroken for what cannot be scaled and for water that cannot be."""
    sized, scaled = batch_of(recipe, asked)
    gives = portions.of_batch(sized, scaled, asked.size(recipe))
    needs = whole_class.class_needs(sized, scaled, asked.benches, book.prices, asked.scales, asked.pool)
    parts = egg_counts.parts_with_size(book.parts, recipe, sized)
    counted = egg_counts.counts(sized, scaled, asked.benches, parts, book.uses)
    costs = _costs(sized, scaled, asked, book, needs)
    return ScaledPage(
        code=recipe.code,
        title=recipe.title,
        number=recipe.number,
        facts=_facts(recipe, asked),
        slip=_slip(scaled, asked, gives),
        words=(*scaled.words, *_scale_words(asked)),
        hand=tuple(_hand(sized, scaled, asked, gives)),
        decide=notices.decisions(sized, scaled, asked),
        components=component_rows(sized, scaled, asked.scales, asked.pool and asked.benches > 1),
        rules=rules_that_acted(sized, scaled),
        needs=tables.need_rows(needs),
        eggs=tables.egg_rows(counted),
        gives=notices.portion_words(sized, gives) if gives else (),
        baking=notices.baking(sized, scaled, asked),
        yields=tables.yield_rows(sized, scaled),
        doughs=tables.dough_rows(sized, scaled, asked),
        water=_water(sized, scaled, asked),
        costs=tables.cost_rows(costs, asked),
        joint=tuple(_joint(counted, parts, book.prices)),
        without_price=tuple(recipe.food(code).name for code in costs.without_price),
    )


def _facts(recipe: RecipeData, asked: Asked) -> str:
    unit = recipe.unit or "portion"
    counted = wording.counted_words(asked.portions, unit, wording.plural(unit))
    size = asked.portion_milligrams or recipe.portion_milligrams
    weight = f" of {wording.amount(size)}" if size else ""
    benches = wording.counted_words(asked.benches, "bench", "benches")
    return f"{benches.capitalize()}, {counted}{weight} each bench. Written for {recipe.portions_stated}."


def _scale_words(asked: Asked) -> Iterable[str]:
    """Which scales were said, so that a printed page tells it too; nothing where none was."""
    scales = asked.scales
    said = [f"the bench scale shows {_fine(scales.bulk)}"] if scales.bulk else []
    said += [f"salt, raising agent, gel and spice go to {_fine(scales.small)}"] if scales.small else []
    if scales.no_fine:
        said.append("there is no fine scale")
    elif scales.fine:
        said.append(f"under 20 g a scale shows {_fine(scales.fine)}")
    if said:
        yield wording.sentence("; ".join(said))


def _fine(step: int) -> str:
    return f"{wording.figure(Fraction(step, 1000), 2)} g"


def _slip(
    scaled: ScaledRecipe, asked: Asked, gives: portions.Obtainable | None
) -> tuple[tuple[str, str], ...]:
    bench = sum((each.exact_milligrams for each in scaled.components), Fraction(0))
    rows = [
        ("Factor of the batch", factor_words(scaled.factor)),
        ("Weighed for a bench", wording.amount(bench, stores=True)),
        ("Weighed for the class", wording.amount(bench * asked.benches, stores=True)),
        ("Portions asked for, a bench", wording.figure(asked.portions)),
    ]
    if gives is not None:
        rows.append(("Portions to be had, a bench", wording.figure(gives.portions)))
    return tuple(rows)


def _hand(
    recipe: RecipeData, scaled: ScaledRecipe, asked: Asked, gives: portions.Obtainable | None
) -> Iterable[Notice]:
    short = notices.portion_notice(recipe, asked, gives)
    if short is not None:
        yield short
    for found in reach.out_of_reach(recipe, scaled, asked.benches):
        yield notices.reach_notice(recipe, found, asked.benches)
    for found in ratios.moved_ratios(recipe, scaled, asked.benches, asked.scales):
        if not (asked.pool and found.is_pooled):
            yield notices.ratio_notice(recipe, found, asked.benches)


def _water(recipe: RecipeData, scaled: ScaledRecipe, asked: Asked) -> tuple[str, ...]:
    said = asked.temperatures
    if said is None:
        return ()
    found = water.dough_water(
        said.wanted,
        said.flour,
        said.room,
        said.friction,
        preferment=said.preferment,
        tap=said.tap,
        water=_liquid(recipe, scaled),
    )
    return tables.water_words(found, said.tap)


def _liquid(recipe: RecipeData, scaled: ScaledRecipe) -> Fraction:
    """Exact milligrams of the liquid of the first component with flour."""
    for component in scaled.components:
        parts = [(recipe.food(line.food).dough_part, line.exact_milligrams) for line in component.lines]
        if any(part == "flour" for part, _ in parts):
            return sum((weight for part, weight in parts if part == LIQUID), Fraction(0))
    return Fraction(0)


def _joint(
    counted: list[egg_counts.WholeCount],
    parts: tuple[egg_counts.PartOf, ...],
    prices: Mapping[str, PackPrice],
) -> Iterable[str]:
    names = {part.part: part.name for part in parts}
    for count in counted:
        shared = egg_costs.shared_cost(count, parts, prices)
        if shared is not None:
            yield tables.joint_words(count, shared, names)


def _costs(
    recipe: RecipeData,
    scaled: ScaledRecipe,
    asked: Asked,
    book: Book,
    needs: list[whole_class.ClassNeed],
) -> costing.Costs:
    return costing.class_costs(
        costing.batch_cost(scaled, recipe, book.prices),
        [each.bought for each in needs],
        asked.benches,
        asked.portions,
        learners=asked.learners,
        selling_pence=asked.selling_pence,
        share_per_mille=asked.share_per_mille,
    )
