"""Components and lines of "Scale it", ready to print: exact, as weighed, how far off, as cooks write it."""

from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import words_of
from curriculum.foods import rounding
from curriculum.foods.handwriting import scaled_words
from curriculum.recipes.classes import PROSE, Prose
from curriculum.recipes.data import LineData, RecipeData
from curriculum.recipes.scaling import ScaledComponent, ScaledLine, ScaledRecipe
from curriculum.recipes.weighing import Scales, Weighed, weigh


@dataclass(frozen=True, slots=True)
class LineRow:
    """One line: the weight to issue, the exact one (empty when equal), how far off, what to know.

    ``far`` is set when the scale is more than 3 % off.
    """

    figure: str
    unit: str
    exact: str
    error: str
    far: bool
    food: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    written: str
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ComponentRow:
    """One component: its name, weight, factor and basis in words, and its lines."""

    code: str
    name: str
    weight: str
    factor: str
    lines: tuple[LineRow, ...]


@dataclass(frozen=True, slots=True)
class Acted:
    """A class that acted on lines of this batch, as a cook is told of it, and on which foods."""

    prose: Prose
    foods: str


def component_rows(
    recipe: RecipeData, scaled: ScaledRecipe, scales: Scales, pool: bool = False
) -> tuple[ComponentRow, ...]:
    """Every component of one bench's batch; with ``pool`` what the scale misses is weighed once for all."""
    return tuple(_component(recipe, each, scales, pool) for each in scaled.components)


def rules_that_acted(recipe: RecipeData, scaled: ScaledRecipe) -> tuple[Acted, ...]:
    """Every class of scaling that did something, once, with the foods it acted on."""
    foods: dict[str, dict[str, None]] = {}
    for line in scaled.lines:
        if line.rule in PROSE and _acted(line):
            foods.setdefault(line.rule, {})[recipe.food(line.food).name] = None
    return tuple(Acted(PROSE[rule], wording.listed(names)) for rule, names in foods.items())


def factor_words(factor: Fraction) -> str:
    """ "× 1.776", "× 2"; as it is when nothing changes."""
    return "as written" if factor == 1 else f"× {wording.figure(factor, 3)}"


def off_words(error: Fraction) -> str:
    """How far off, in words: "1.3 % over", "0.4 % under"."""
    way = "over" if error > 0 else "under"
    return f"{wording.per_cent(abs(error), 1)} {way}" if abs(error) >= Fraction(1, 2000) else ""


def _component(recipe: RecipeData, component: ScaledComponent, scales: Scales, pool: bool) -> ComponentRow:
    written = next(each for each in recipe.components if each.code == component.code)
    rows = tuple(
        _line(recipe, line, before, scales, pool)
        for line, before in zip(component.lines, written.lines, strict=True)
    )
    return ComponentRow(
        component.code,
        component.name,
        wording.amount(component.exact_milligrams),
        f"{factor_words(component.factor)}, {component.words}",
        rows,
    )


def _acted(line: ScaledLine) -> bool:
    """Whether a class did something to this line that is worth its prose."""
    return line.rule != "linear" and bool(line.words) and line.factor != 1


def _line(recipe: RecipeData, line: ScaledLine, before: LineData, scales: Scales, pool: bool) -> LineRow:
    food = recipe.food(line.food)
    counted = line.give_pieces is not None and line.give_food == line.food
    shown = weigh(line.exact_milligrams, food, scales)
    far = not counted and abs(shown.error) > rounding.WORTH_NAMING
    figure, unit, exact = _pieces(line) if counted else _weight(shown)
    points = _points(recipe, line)
    if far and pool and line.give_food == line.food:
        figure, exact, far = wording.figure(shown.exact / 1000, 2), "", False
        points = ["A share of what is weighed once for all benches.", *points]
    return LineRow(
        figure,
        unit,
        exact,
        off_words(shown.error) if exact and not counted else "",
        far,
        food.name,
        tuple(words_of(kind) for kind in food.contains),
        tuple(words_of(kind) for kind in food.may_contain),
        _as_written(recipe, line, before),
        tuple(points),
    )


def _as_written(recipe: RecipeData, line: ScaledLine, before: LineData) -> str:
    """The amount in the words and measures of its writer; empty where nothing can be said."""
    if not before.written:
        return ""
    return scaled_words(before.written, recipe.measures, line.factor) or ""


def _pieces(line: ScaledLine) -> tuple[str, str, str]:
    pieces = line.give_pieces or Fraction(0)
    whole = rounding.whole_pieces(pieces)
    exact = "" if whole == pieces else wording.figure(pieces, 2)
    return wording.figure(whole), "", f"{exact}, {wording.amount(line.exact_milligrams)}" if exact else ""


def _weight(shown: Weighed) -> tuple[str, str, str]:
    exact = "" if shown.exact == shown.milligrams else wording.exact_amount(shown.exact)
    return wording.figure(Fraction(shown.milligrams, 1000), 2), "g", exact


def _points(recipe: RecipeData, line: ScaledLine) -> list[str]:
    said = []
    if line.least_milligrams is not None and line.most_milligrams is not None:
        said.append(f"{wording.amount_range(line.least_milligrams, line.most_milligrams)}, the cue decides.")
    if line.held_back_milligrams:
        said.append(f"{wording.amount(line.held_back_milligrams)} of it held back.")
    if line.target_milligrams is not None:
        said.append(f"Reduce to {wording.amount(line.target_milligrams)}.")
    if line.part != "recipe":
        said.append(f"For {line.purpose or 'over-issue'}: the same for every bench.")
    if line.rule not in ("range", "evaporating") and line.target_milligrams is None and line.words:
        said.append(line.words)
    if line.give_food != line.food and line.give_pieces is not None:
        whole = recipe.food(line.give_food).name if _has(recipe, line.give_food) else line.give_food
        said.append(f"{wording.figure(line.give_pieces, 2)} × {whole}.")
    return said


def _has(recipe: RecipeData, code: str) -> bool:
    return any(food.code == code for food in recipe.foods)
