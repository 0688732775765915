"""Scaling: one bench's batch of a recipe, for so many portions, in these tins.

For kits, the recipe sheet of a bench and the page "Scale it". Plain data in, plain data
out; every weight stays an exact ``Fraction`` of milligrams until the last function,
``issued``, rounds it to what the scale shows.

The sum, in this order
----------------------
1. **The factor of each component** comes from its own basis (``bases.py``).
   ``portions`` and ``pieces``: wanted portions / stated portions (whole
   batches for counts that the same dish may be cut for).
   ``lined_area`` and ``filled_volume``: the tins rule. Without new tins the batch takes
   whole tins: as many as the wanted portions need, rounded up, over as many as the recipe
   has. With new tins: area lined, or volume filled inside the paste, new over old
   (``tins.py``). A component that names no tin goes by portions.
   ``vessel``: 1, since it fills a pan and not plates.
   ``minimum``: the factor of portions; its lines have a least mass.
   ``fixed``: 1, an over-issue for each bench (dusting, greasing).
2. **The class of each line** acts on that factor, and only here, because only here is one
   batch in one pan itself made larger or smaller. Benches multiply (``for_benches``):
   seventeen benches get seventeen times the salt, exactly.
3. **What the bench is given.** A line's weight is as prepared or as bought, and it is issued
   as prepared or as bought: 300 g of trimmed leek, trimmed by the learner at a usable share
   of 75 %, is 400 g of leek in the kit. A part of a whole piece (yolk of an egg, zest of a
   lemon) is issued in whole pieces; the pieces of one bench are added before they are
   rounded (``pieces_to_issue``).
4. **Rounding**, once: ``issued``.

The classes with their sources stand in ``classes.py``.

Worked example: a quiche for 8 in one tin, wanted for 16: two tins, so factor 2 for paste
and filling. Flour 260 g becomes 520 g, the custard's salt 4 g becomes 6 g by its class, the
paste's salt 3 g becomes 6 g because its line says linear; the dusting flour stays 20 g.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from curriculum.errors import RuleBroken
from curriculum.foods import eggs, rounding, yields
from curriculum.recipes import bases, classes
from curriculum.recipes.data import ComponentData, FoodData, LineData, RecipeData, TinData


@dataclass(frozen=True, slots=True)
class ScaledLine:
    """One line of one bench's batch; every weight in exact milligrams.

    ``exact_milligrams`` is the weight the recipe speaks of (``weight_is``);
    ``give_milligrams`` is what the bench is given of the food ``give_food`` (the egg for its
    yolk, the leek as bought for the trimmed one), ``give_pieces`` the same in pieces where it
    is handed out by the piece. ``rule`` is the class that acted, ``words`` says what it did
    (empty when it did nothing to say), ``person_decides`` where the trade has no figure.
    """

    component: str
    position: int
    food: str
    factor: Fraction
    exact_milligrams: Fraction
    weight_is: str
    issued: str
    give_food: str
    give_milligrams: Fraction
    give_pieces: Fraction | None = None
    rule: str = "linear"
    words: str = ""
    person_decides: bool = False
    held_back_milligrams: Fraction = Fraction(0)
    least_milligrams: Fraction | None = None
    most_milligrams: Fraction | None = None
    target_milligrams: Fraction | None = None
    part: str = "recipe"
    purpose: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class ScaledComponent:
    """One component of one bench's batch, with its own factor and where that came from."""

    code: str
    name: str
    basis: str
    factor: Fraction
    words: str
    lines: tuple[ScaledLine, ...]
    target_milligrams: Fraction | None = None

    @property
    def exact_milligrams(self) -> Fraction:
        """The sum of its lines, as the recipe weighs them."""
        return sum((line.exact_milligrams for line in self.lines), Fraction(0))


@dataclass(frozen=True, slots=True)
class ScaledRecipe:
    """One bench's batch: ``portions`` wanted, ``factor`` wanted over stated, the tins it fills."""

    code: str
    title: str
    number: int
    portions: int
    factor: Fraction
    components: tuple[ScaledComponent, ...]
    tins: tuple[TinData, ...] = ()
    words: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[ScaledLine, ...]:
        """Every line of every component, in order."""
        return tuple(line for component in self.components for line in component.lines)


def scale(
    recipe: RecipeData,
    portions: int,
    tins: tuple[TinData, ...] | None = None,
    *,
    size: Fraction = Fraction(1),
    filled: bases.Filled = bases.AS_WRITTEN,
) -> ScaledRecipe:
    """One bench's batch of ``recipe`` for ``portions``, in its own tins or in these.

    ``tins`` stand one for one for the recipe's tins; ``size`` is the wanted over the written
    weight of a portion; ``filled`` how the tins are filled. RuleBroken for portions that are
    none, for another number of kinds of tin than the recipe has, and for a tin without measures.
    """
    _demand_portions(portions)
    factor = bases.batch_factor(recipe, portions, size)
    used = bases.own_tins(recipe, factor) if tins is None else bases.demand_pairs(recipe, tins)
    return ScaledRecipe(
        recipe.code,
        recipe.title,
        recipe.number,
        portions,
        factor,
        tuple(_scale_component(recipe, each, factor, used, filled) for each in recipe.components),
        used,
        tuple(bases.tin_words(recipe, factor, used, filled)),
    )


def for_benches(exact: Fraction, benches: int) -> Fraction:
    """So many benches of the same batch: they multiply, no class acts."""
    return exact * benches


def issued(exact: Fraction, food: FoodData) -> int:
    """Milligrams to weigh out of ``food``: rounded once, by its own rule, to what the scale shows."""
    return rounding.to_issue(exact, food.increment_milligrams, food.rounding)


def pieces_to_issue(lines: Iterable[ScaledLine], recipe: RecipeData) -> dict[str, Fraction]:
    """Exact pieces of each whole food that the lines of one bench need together.

    White and yolk of the same egg are had together, juice and zest of the same lemon too;
    round up with ``rounding.whole_pieces`` for the bench, or add benches first for the order.
    """
    counted: dict[str, Fraction] = {}
    parts: dict[str, list[eggs.PartNeed]] = {}
    for line in lines:
        if line.give_pieces is None:
            continue
        made_from = recipe.food(line.food).made_from if line.give_food != line.food else None
        if made_from is None:
            counted[line.give_food] = counted.get(line.give_food, Fraction(0)) + line.give_pieces
        else:
            need = eggs.PartNeed(line.food, line.exact_milligrams, made_from.milligrams_per_piece)
            parts.setdefault(line.give_food, []).append(need)
    for food, needs in parts.items():
        counted[food] = counted.get(food, Fraction(0)) + eggs.exact_pieces(needs)
    return counted


def _demand_portions(portions: int) -> None:
    if portions < 1:
        raise RuleBroken(
            "no_portions",
            f"You asked for {portions} portions. Write a whole number, 1 or more.",
            portions=portions,
        )


def _scale_component(
    recipe: RecipeData,
    component: ComponentData,
    factor: Fraction,
    used: tuple[TinData, ...],
    filled: bases.Filled,
) -> ScaledComponent:
    own, words = bases.component_factor(recipe, component, factor, used, filled)
    lines = tuple(_scale_line(recipe, component, line, own) for line in component.lines)
    target = component.target_milligrams
    return ScaledComponent(
        component.code,
        component.name,
        component.basis,
        own,
        words,
        lines,
        None if target is None else target * own,
    )


def _scale_line(recipe: RecipeData, component: ComponentData, line: LineData, factor: Fraction) -> ScaledLine:
    food = recipe.food(line.food)
    rule = line.scaling_class or food.scaling_class
    own = Fraction(1) if line.part == "over_issue" else factor
    exact = classes.act(
        rule, Fraction(line.milligrams), own, line.minimum_milligrams, line.returned_milligrams or 0
    )
    ratio = exact / line.milligrams
    words, decides = classes.words(rule, own, line.target_milligrams is not None)
    give_food, give, pieces = _given(recipe, line, food, exact, ratio)
    return ScaledLine(
        component=component.code,
        position=line.position,
        food=line.food,
        factor=ratio,
        exact_milligrams=exact,
        weight_is=line.weight_is,
        issued=line.issued,
        give_food=give_food,
        give_milligrams=give,
        give_pieces=pieces,
        rule=rule,
        words=words,
        person_decides=decides,
        held_back_milligrams=line.held_back_milligrams * ratio,
        least_milligrams=_times(line.least_milligrams, ratio),
        most_milligrams=_times(line.most_milligrams, ratio),
        target_milligrams=_times(line.target_milligrams, own),
        part=line.part,
        purpose=line.purpose,
        note=line.note,
    )


def _times(milligrams: int | None, factor: Fraction | int) -> Fraction | None:
    return None if milligrams is None else milligrams * Fraction(factor)


def _given(
    recipe: RecipeData, line: LineData, food: FoodData, exact: Fraction, ratio: Fraction
) -> tuple[str, Fraction, Fraction | None]:
    """(food handed out, its exact milligrams, its exact pieces or None)."""
    if food.made_from is not None and line.issued == "as_bought":
        pieces = exact / food.made_from.milligrams_per_piece
        return food.made_from.food, pieces * _piece_weight(recipe, food), pieces
    if line.pieces is not None:
        pieces = line.pieces * ratio
        each = food.piece_milligrams or Fraction(line.milligrams, line.pieces)
        return food.code, pieces * each, pieces
    share = line.yield_per_mille or food.usable_per_mille
    if line.weight_is == "prepared" and line.issued == "as_bought":
        return food.code, yields.as_bought(exact, share), None
    if line.weight_is == "as_bought" and line.issued == "prepared":
        return food.code, yields.usable(exact, share), None
    return food.code, exact, None


def _piece_weight(recipe: RecipeData, food: FoodData) -> int:
    """Milligrams of one whole piece, or of the part it gives when the whole is not in the book."""
    whole = next((other for other in recipe.foods if other.code == food.made_from.food), None)
    if whole is None or whole.piece_milligrams is None:
        return food.made_from.milligrams_per_piece
    return whole.piece_milligrams
