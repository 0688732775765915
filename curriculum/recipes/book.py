"""Lists of the book in words: one line a recipe, and the sentence above the list."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date

from curriculum import wording
from curriculum.allergens import GROUPS, printed
from curriculum.recipes.checks_without import claims_kept
from curriculum.recipes.data import RecipeData
from curriculum.recipes.eating import used_foods
from curriculum.recipes.figures import Figures
from curriculum.recipes.search import techniques_of
from curriculum.recipes.step_words import EVERYDAY

#: Shown of a recipe's techniques on its line; every recipe begins with the first two.
SHOWN_TECHNIQUES = 4


@dataclass(frozen=True, slots=True)
class BookLine:
    """One recipe on the list."""

    code: str
    number: int
    title: str
    minutes: str
    facts: str
    techniques: str
    contains: tuple[str, ...]
    free_from: tuple[str, ...]
    oven: str
    cost: str


def line_of(
    recipe: RecipeData, names: Mapping[str, str], figures: Figures, costed_on: date | None = None
) -> BookLine:
    """The line of a recipe with the figures that the book keeps of it, a cost as of ``costed_on``.

    ``names`` are names of techniques by code.
    """
    kinds = {kind for food in used_foods(recipe) for kind in food.contains}
    trained = [code for code in techniques_of(recipe) if code not in EVERYDAY]
    shown = "; ".join(names.get(code, code) for code in trained[:SHOWN_TECHNIQUES])
    unit = recipe.unit or "portion"
    portions = wording.counted_words(recipe.portions_stated, unit, wording.plural(unit))
    return BookLine(
        code=recipe.code,
        number=recipe.number,
        title=recipe.title,
        minutes="" if figures.one_cook_minutes is None else wording.duration(figures.one_cook_minutes),
        facts=f"{recipe.level.capitalize()}, {portions}.",
        techniques=wording.sentence(shown),
        contains=tuple(printed(kind) for _, group in GROUPS.values() for kind in group if kind in kinds),
        free_from=tuple(GROUPS[code][0] if code in GROUPS else printed(code) for code in claims_kept(recipe)),
        oven=_oven_words(figures.oven_minutes),
        cost=_cost_words(figures.portion_pence, costed_on),
    )


def _oven_words(minutes: int | None) -> str:
    if minutes is None:
        return "Oven not reckoned"
    return f"{wording.duration(minutes)} in an oven" if minutes else "No oven"


def _cost_words(pence: int | None, day: date | None) -> str:
    if pence is None or day is None:
        return "Cost not known"
    return f"{wording.money(pence)} a portion, at prices of {wording.short_date(day)}"


def count_words(found: int, every: int, asked: Collection[str], sorted_by: str = "") -> str:
    """The sentence above the list: "Two of twelve recipes: with blind baking, free from egg."."""
    by = f" Sorted by {sorted_by}." if sorted_by else ""
    if not asked:
        return f"{wording.counted_words(every, 'recipe').capitalize()} approved to teach.{by}"
    of = f"{wording.number(found)} of {wording.counted_words(every, 'recipe')}"
    return f"{of.capitalize()}: {', '.join(asked)}.{by}"
