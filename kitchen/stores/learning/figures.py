"""Figures that a person accepted, laid on what the recipes say: for kits, needs, requisitions.

A kit is made from the approved recipe; an accepted over-issue or usable share goes in its place,
and the line of the kit says so. The recipe's own sheet stays as it was approved. A wastage
allowance is no part of a kit: it is asked for beside the kits in the requisition, and what is
not needed of it stays in the stores.

Plain data in, plain data out. Worked example: the quiche says 20 g of flour for dusting, 30 g were
accepted: each kit holds 30 g and the line says "learned from six lessons, the recipe says 20 g".
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from typing import Any

from curriculum import wording
from curriculum.foods import rounding
from curriculum.recipes.data import ComponentData, LineData, RecipeData
from kitchen.stores.kits import KitLinePlan, KitPlan
from kitchen.stores.learning.evidence import OVER_ISSUE, USABLE, WASTAGE
from kitchen.stores.needs import Need

#: An allowance is asked for in whole grams.
GRAM = 1000


@dataclass(frozen=True, slots=True)
class Figure:
    """One accepted figure: milligrams a bench for over-issue, per mille otherwise.

    ``of`` is the code of a recipe or a technique, or empty; ``food`` may be empty for an allowance
    of a technique. ``source`` says from what it was learned.
    """

    kind: str
    food: str
    of: str
    amount: int
    source: str


def kept(figures: Iterable[Figure]) -> list[dict[str, Any]]:
    """As JSON: by which figures kits were made."""
    return [asdict(each) for each in figures]


def read(said: Iterable[Mapping[str, Any]]) -> tuple[Figure, ...]:
    """Back from their JSON."""
    return tuple(Figure(**each) for each in said)


def laid_on(recipe: RecipeData, figures: Iterable[Figure]) -> RecipeData:
    """The recipe with accepted over-issue and usable shares in the place of its own."""
    figures = tuple(figures)
    shares = {each.food: each.amount for each in figures if each.kind == USABLE}
    over = _over_of(recipe, figures)
    foods = tuple(
        replace(food, usable_per_mille=shares[food.code]) if food.code in shares else food
        for food in recipe.foods
    )
    components = tuple(_component(each, recipe, over) for each in recipe.components) if over else None
    return replace(recipe, foods=foods, components=recipe.components if components is None else components)


def over_issue_in(recipe: RecipeData) -> dict[str, int]:
    """Milligrams of over-issue a bench by food, as the recipe writes it; whole pieces left out."""
    found: dict[str, int] = {}
    for line in _over_lines(recipe):
        found[line.food] = found.get(line.food, 0) + line.milligrams
    return found


def components_with(recipe: RecipeData, food: str) -> tuple[str, ...]:
    """Names of the components whose recipe lines take the food too."""
    return tuple(
        each.name
        for each in recipe.components
        if any(line.food == food and line.part != "over_issue" for line in each.lines)
    )


def foods_trimmed(recipe: RecipeData) -> tuple[str, ...]:
    """Foods of which trimming leaves less, where no line has a usable share of its own."""
    return tuple(
        food.code
        for food in recipe.foods
        if food.usable_per_mille < 1000 and _goes_by_share(recipe, food.code)
    )


def techniques_of(recipe: RecipeData) -> dict[str, tuple[str, ...]]:
    """By food as it is handed out: the techniques of the steps that work it, by code."""
    found: dict[str, set[str]] = {}
    for step in recipe.steps:
        for component in recipe.components:
            if component.code in step.components:
                for line in component.lines:
                    if line.part == "recipe":
                        found.setdefault(_handed_out(recipe, line), set()).update(step.techniques)
    return {food: tuple(sorted(codes)) for food, codes in found.items() if codes}


def allowances(recipes: Iterable[RecipeData], figures: Iterable[Figure]) -> dict[str, Figure]:
    """The allowance of each food that these recipes work, where one was accepted for it."""
    standing = {(each.food, each.of): each for each in figures if each.kind == WASTAGE}
    found: dict[str, Figure] = {}
    for recipe in recipes if standing else ():
        worked = techniques_of(recipe)
        for food in {each.code for each in recipe.foods}:
            figure = _allowance(food, worked.get(food, ()), standing)
            if figure and (food not in found or figure.amount > found[food].amount):
                found[food] = figure
    return found


def allowed(need: Need, figure: Figure | None) -> tuple[int, int | None]:
    """What an allowance adds to a need: milligrams up to a whole gram, and whole pieces or None."""
    if figure is None or not figure.amount:
        return 0, None
    if need.pooled_pieces is not None:
        pieces = rounding.whole_pieces(Fraction(need.pooled_pieces * figure.amount, 1000))
        return pieces * need.unit_milligrams, pieces
    return rounding.up(Fraction(need.ordered_milligrams * figure.amount, 1000), GRAM), None


def with_sources(
    kits: Iterable[KitPlan], recipes: Iterable[RecipeData], figures: Iterable[Figure]
) -> tuple[KitPlan, ...]:
    """Kits whose lines say where a figure of theirs was learned; ``recipes`` as they are laid on."""
    figures = tuple(figures)
    if not figures:
        return tuple(kits)
    by_code = {recipe.code: recipe for recipe in recipes}
    return tuple(
        replace(kit, lines=tuple(_sourced(line, by_code[kit.recipe], figures) for line in kit.lines))
        for kit in kits
    )


def _sourced(line: KitLinePlan, recipe: RecipeData, figures: tuple[Figure, ...]) -> KitLinePlan:
    said = []
    if line.part == "over_issue" and line.food in (over := _over_of(recipe, figures)):
        said.append(over[line.food].source)
    if line.part == "recipe" and line.pieces is None:
        shares = [each for each in figures if each.kind == USABLE and each.food == line.food]
        said += [
            f"usable {wording.per_cent(Fraction(each.amount, 1000), 1)}, {each.source}"
            for each in shares
            if _goes_by_share(recipe, line.food)
        ]
    return replace(line, note="; ".join([line.note, *said] if line.note else said)) if said else line


def _goes_by_share(recipe: RecipeData, food: str) -> bool:
    """Whether a line of the food is trimmed and has no usable share of its own."""
    lines = [line for each in recipe.components for line in each.lines if line.food == food]
    return any(line.yield_per_mille is None and _is_trimmed(line) for line in lines)


def _is_trimmed(line: LineData) -> bool:
    return line.pieces is None and not (line.weight_is == line.issued == "as_bought")


def _over_of(recipe: RecipeData, figures: Iterable[Figure]) -> dict[str, Figure]:
    """Accepted over-issue of this recipe, or of the ordinary one that it is a variant of, by food."""
    here = [each for each in figures if each.kind == OVER_ISSUE]
    ordinary = {each.food: each for each in here if each.of == recipe.variant_of}
    return ordinary | {each.food: each for each in here if each.of == recipe.code}


def _over_lines(recipe: RecipeData) -> list[LineData]:
    return [
        line
        for each in recipe.components
        for line in each.lines
        if line.part == "over_issue" and line.pieces is None
    ]


def _component(component: ComponentData, recipe: RecipeData, over: Mapping[str, Figure]) -> ComponentData:
    lines = (_line(line, recipe, over) for line in component.lines)
    return replace(component, lines=tuple(line for line in lines if line is not None))


def _line(line: LineData, recipe: RecipeData, over: Mapping[str, Figure]) -> LineData | None:
    """An over-issue line at the accepted weight; several of one food share it, the first has the rest."""
    if line.part != "over_issue" or line.pieces is not None or line.food not in over:
        return line
    wanted = over[line.food].amount
    same = [each for each in _over_lines(recipe) if each.food == line.food]
    whole = sum(each.milligrams for each in same)
    shares = [wanted * each.milligrams // whole for each in same]
    shares[0] += wanted - sum(shares)
    milligrams = shares[same.index(line)]
    return replace(line, milligrams=milligrams) if milligrams else None


def _handed_out(recipe: RecipeData, line: LineData) -> str:
    """The food that the bench is given for a line: the egg in its shell for beaten egg."""
    made_from = recipe.food(line.food).made_from
    return made_from.food if made_from is not None and line.issued == "as_bought" else line.food


def _allowance(
    food: str, techniques: tuple[str, ...], standing: Mapping[tuple[str, str], Figure]
) -> Figure | None:
    """Of its techniques the largest; for one, that of the food goes before that of all foods."""
    own = [standing.get((food, code)) or standing.get(("", code)) for code in techniques]
    found = [each for each in own if each is not None]
    if found:
        return max(found, key=lambda each: (each.amount, each.of))
    return standing.get((food, ""))
