"""Eggs of a class: by size, pooled and kit by kit, what is left over and what that would make.

For the page "Scale it". A recipe speaks of beaten egg, white and yolk by weight; benches are
given eggs in their shells. Another size of egg changes the number of eggs and no weight.
Pooled means in the order: exact eggs of all benches and components are added first and
rounded once. In a bowl nothing is pooled in silence: a pooled bowl is a made lot with its
own time, lots and discard time.

Worked example: an éclair bench takes 240 g beaten and 100 g yolk, 10.36 eggs. Eight benches
are 82.8, so 83 eggs pooled and 88 kit by kit. 45 eggs are broken for their yolk and leave
1,350 g of white: nine batches of a meringue of 150 g.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor

from curriculum.foods import eggs, rounding
from curriculum.foods.data import FoodData
from curriculum.recipes import scaling
from curriculum.recipes.data import RecipeData
from curriculum.recipes.scaling import ScaledRecipe

#: An egg of each size in its shell, in milligrams: near the middle of its class (Reg. (EC) 589/2008).
#: Which weight in the class stands for it is common practice, no source.
SHELL_MILLIGRAMS = {"small": 48_000, "medium": 58_000, "large": 68_000, "very large": 76_000}
#: How many recipes are named for what is left over.
MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class PartOf:
    """A part of a whole piece, and what one piece gives of it."""

    part: str
    name: str
    whole: str
    milligrams_per_piece: int


@dataclass(frozen=True, slots=True)
class PartUse:
    """What one stated batch of another recipe of the book takes of a part."""

    part: str
    recipe: str
    title: str
    milligrams: int


@dataclass(frozen=True, slots=True)
class Makes:
    """So many whole batches of a recipe that something left over would make."""

    recipe: str
    title: str
    batches: int
    milligrams: int


@dataclass(frozen=True, slots=True)
class LeftOver:
    """What is left of a part of broken pieces, pooled over the class, and what it would make."""

    part: str
    name: str
    milligrams: Fraction
    makes: tuple[Makes, ...]


@dataclass(frozen=True, slots=True)
class WholeCount:
    """Whole pieces of one food: exact a bench, kit by kit and pooled for the class, with what is left.

    ``broken`` are the pieces separated for a part, pooled; ``used`` (part, milligrams) of them.
    """

    food: str
    name: str
    a_bench: Fraction
    kit_by_kit: int
    pooled: int
    left: tuple[LeftOver, ...] = ()
    broken: int = 0
    used: tuple[tuple[str, Fraction], ...] = ()


def is_egg(food: FoodData) -> bool:
    """Whether a food is a whole egg that is counted."""
    return food.counted_in == "pieces" and "egg" in food.contains and food.made_from is None


def with_size(recipe: RecipeData, shell_milligrams: int) -> RecipeData:
    """The recipe with eggs of another weight in their shells; every part in proportion."""
    factors = {
        food.code: Fraction(shell_milligrams, food.piece_milligrams)
        for food in recipe.foods
        if is_egg(food) and food.piece_milligrams
    }
    return replace(recipe, foods=tuple(_resized(food, factors) for food in recipe.foods))


def parts_with_size(parts: Iterable[PartOf], recipe: RecipeData, sized: RecipeData) -> tuple[PartOf, ...]:
    """What a piece gives of each part when the recipe's eggs were changed to those of ``sized``."""
    factors = {
        old.code: Fraction(new.piece_milligrams, old.piece_milligrams)
        for old, new in zip(recipe.foods, sized.foods, strict=True)
        if old.piece_milligrams and new.piece_milligrams
    }
    return tuple(
        replace(
            part, milligrams_per_piece=round(part.milligrams_per_piece * factors.get(part.whole, Fraction(1)))
        )
        for part in parts
    )


def counts(
    recipe: RecipeData,
    scaled: ScaledRecipe,
    benches: int,
    parts: Iterable[PartOf] = (),
    uses: Iterable[PartUse] = (),
) -> list[WholeCount]:
    """Every food that is handed out by the piece; for eggs what is left of white and yolk.

    ``parts`` are what the book's whole pieces give, ``uses`` what its recipes take of them.
    """
    parts, uses = tuple(parts), tuple(uses)
    found = []
    for code, pieces in scaling.pieces_to_issue(scaled.lines, recipe).items():
        count = WholeCount(
            code,
            recipe.food(code).name,
            pieces,
            rounding.whole_pieces(pieces) * benches,
            rounding.whole_pieces(scaling.for_benches(pieces, benches)),
        )
        egg = is_egg(recipe.food(code))
        found.append(_separated(recipe, scaled, benches, count, parts, uses) if egg else count)
    return found


def makes(
    part: str, milligrams: Fraction, uses: Iterable[PartUse], but: str = "", most: int = MOST_NAMED
) -> tuple[Makes, ...]:
    """Recipes of which so much makes a whole batch or more, the one that takes most in a batch first."""
    found = [
        Makes(use.recipe, use.title, floor(milligrams / use.milligrams), use.milligrams)
        for use in uses
        if use.part == part and use.recipe != but and 0 < use.milligrams <= milligrams
    ]
    return tuple(sorted(found, key=lambda each: (-each.milligrams, each.title))[:most])


def _resized(food: FoodData, factors: dict[str, Fraction]) -> FoodData:
    if food.code in factors:
        factor = factors[food.code]
        edible = food.edible_piece_milligrams
        shell = round(food.piece_milligrams * factor)
        return replace(
            food,
            name=_named(food.name, shell),
            piece_milligrams=shell,
            edible_piece_milligrams=None if edible is None else round(edible * factor),
        )
    made = food.made_from
    if made is None or made.food not in factors:
        return food
    per_piece = round(made.milligrams_per_piece * factors[made.food])
    return replace(food, made_from=replace(made, milligrams_per_piece=per_piece))


def _named(name: str, shell: int) -> str:
    """The name with the class of its weight: "Hen egg in shell, large"."""
    kind, _, size = name.rpartition(", ")
    classes = [each for each, _ in eggs.SIZE_CLASSES]
    return f"{kind if kind and size in classes else name}, {eggs.size_class(shell)}"


def _separated(
    recipe: RecipeData,
    scaled: ScaledRecipe,
    benches: int,
    count: WholeCount,
    parts: tuple[PartOf, ...],
    uses: tuple[PartUse, ...],
) -> WholeCount:
    """The count with the pieces broken for a part, pooled over the class, and what they leave."""
    needs = [
        eggs.PartNeed(line.food, line.exact_milligrams * benches, made.milligrams_per_piece)
        for line in scaled.lines
        if line.give_food == count.food and (made := recipe.food(line.food).made_from) is not None
    ]
    needs = [need for need in needs if not need.takes_all]
    own = [part for part in parts if part.whole == count.food and not part.part.endswith(eggs.WHOLE_PARTS)]
    used: dict[str, Fraction] = {}
    for need in needs:
        used[need.part] = used.get(need.part, Fraction(0)) + need.milligrams
    left = eggs.left_over(needs, {part.part: part.milligrams_per_piece for part in own})
    return replace(
        count,
        left=tuple(
            LeftOver(part.part, part.name, rest, makes(part.part, rest, uses, recipe.code))
            for part in own
            if (rest := left[part.part]) > 0
        ),
        broken=rounding.whole_pieces(eggs.exact_pieces(needs)),
        used=tuple(used.items()),
    )
