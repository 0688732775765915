"""The lines of a recipe in words: figure and unit, food, allergens, and what to watch.

For the recipe page, the writing page, the sheets. As written a weight is never rounded;
scaled, the weight to issue stands with the exact one beside it.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import words_of
from curriculum.foods.handwriting import scaled_words
from curriculum.recipes import scaling
from curriculum.recipes.data import FoodData, LineData, RecipeData
from curriculum.recipes.scaling import ScaledLine


@dataclass(frozen=True, slots=True)
class LineWords:
    """One line of a docket: figure and unit, food, allergens by kind, points.

    ``measured`` is the amount in the measures it was written in ("1½ cups"), beside the grams.
    """

    position: int
    figure: str
    unit: str
    food: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    notes: tuple[str, ...]
    exact: str = ""
    measured: str = ""

    @property
    def points(self) -> tuple[str, ...]:
        """The written measure and the notes as sentences, for the sheets."""
        return (*((f"{self.measured}.",) if self.measured else ()), *self.notes)


@dataclass(frozen=True, slots=True)
class ComponentWords:
    """One component as a docket: its code and name, what it weighs, how it scales."""

    code: str
    name: str
    weight: str
    basis: str
    note: str
    lines: tuple[LineWords, ...]


def component_words(recipe: RecipeData, component: scaling.ScaledComponent) -> ComponentWords:
    """A component of the scaled recipe, with the lines of the recipe behind it."""
    original = next(each for each in recipe.components if each.code == component.code)
    pairs = zip(component.lines, original.lines, strict=True)
    return ComponentWords(
        component.code,
        component.name,
        wording.amount(component.exact_milligrams),
        component.words,
        original.note,
        tuple(_line(recipe, line, before) for line, before in pairs),
    )


def _line(recipe: RecipeData, line: ScaledLine, before: LineData) -> LineWords:
    food = recipe.food(line.food)
    figure, unit, exact = _figure(line, food)
    said = scaled_words(before.written, recipe.measures, line.exact_milligrams / Fraction(before.milligrams))
    return LineWords(
        line.position,
        figure,
        unit,
        food.name,
        tuple(words_of(kind) for kind in food.contains),
        tuple(words_of(kind) for kind in food.may_contain),
        tuple(_notes(line, food)),
        exact,
        said if said != f"{figure} {unit}".strip() else "",
    )


def _figure(line: ScaledLine, food: FoodData) -> tuple[str, str, str]:
    """(figure, unit, exact words when the figure was rounded)."""
    if line.give_pieces is not None and line.give_food == line.food:
        whole = -(-line.give_pieces // 1)
        exact = "" if whole == line.give_pieces else wording.figure(line.give_pieces, 2)
        return wording.figure(whole), "", exact
    if line.factor == 1:
        return wording.grams(line.exact_milligrams), "g", ""
    shown = scaling.issued(line.exact_milligrams, food)
    exact = "" if shown == line.exact_milligrams else wording.exact_amount(line.exact_milligrams)
    return wording.grams(shown), "g", exact


def _notes(line: ScaledLine, food: FoodData) -> list[str]:
    said = []
    if line.weight_is == "as_bought" and line.give_pieces is None:
        said.append("As bought.")
    as_bought = line.give_pieces is None and line.issued == "as_bought"
    if as_bought and line.give_milligrams != line.exact_milligrams:
        said.append(f"Given as bought: {wording.amount(round(line.give_milligrams, -3))}.")
    if line.least_milligrams is not None and line.most_milligrams is not None:
        said.append(f"{wording.amount_range(line.least_milligrams, line.most_milligrams)}, the cue decides.")
    if line.held_back_milligrams:
        said.append(f"{wording.amount(line.held_back_milligrams)} held back.")
    if line.target_milligrams is not None:
        said.append(f"Reduce to {wording.amount(line.target_milligrams)}.")
    if line.rule not in ("range", "evaporating") and line.target_milligrams is None and line.words:
        said.append(line.words)
    if line.part != "recipe":
        said.append(wording.sentence(line.purpose or line.part.replace("_", "-")))
    return [*said, *([line.note] if line.note else [])]
