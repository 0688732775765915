"""The accepted figures by which a lesson's kits and requisition are reckoned."""

from collections.abc import Iterable, Mapping

from django.db.models import Q

from curriculum import wording
from curriculum.recipes.data import RecipeData
from kitchen.lessons.models import Lesson
from kitchen.stores.learning.evidence import OVER_ISSUE, USABLE
from kitchen.stores.learning.figures import Figure, over_issue_in, read
from kitchen.stores.learning.models import KeptFigure
from kitchen.stores.models import KitSet

STANDING = KeptFigure.State.ACCEPTED


def figures_for(lesson: Lesson, recipes: Iterable[RecipeData], *, anew: bool = False) -> tuple[Figure, ...]:
    """What was accepted for the foods of these recipes; two queries at most.

    Kits that were made stay as they were: while they stand, the figures kept with them count. Only
    ``anew``, when kits are made again, everything that stands by now.
    """
    if not anew:
        made = KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED)
        kept = made.values_list("inputs__learned", flat=True)[:1]
        if kept:
            return read(kept[0] or ())
    return standing_figures(recipes)


def standing_figures(recipes: Iterable[RecipeData]) -> tuple[Figure, ...]:
    """Everything that stands for the foods and recipes of these. One query."""
    recipes = list(recipes)
    foods = {food.code for recipe in recipes for food in recipe.foods}
    rows = KeptFigure.objects.filter(Q(food__code__in=foods) | Q(food=None), state=STANDING)
    own = {recipe.code: over_issue_in(recipe) for recipe in recipes}
    return tuple(
        figure_of(row, own)
        for row in rows.select_related("food", "recipe", "technique", "by").order_by("pk")
        if row.kind != OVER_ISSUE or _of_these(row, recipes)
    )


def figure_of(row: KeptFigure, own: Mapping[str, Mapping[str, int]]) -> Figure:
    """One row as calculations take it; ``own`` is the over-issue that the recipes write, by code and food."""
    food = row.food.code if row.food else ""
    of = row.recipe.code if row.recipe else row.technique.code if row.technique else ""
    written = own.get(of, {}).get(food) if row.kind == OVER_ISSUE else None
    beside = f", the recipe says {wording.amount(written)}" if written else ""
    return Figure(row.kind, food, of, row.amount, source_of(row) + beside)


def source_of(row: KeptFigure) -> str:
    """From what a figure was learned: "learned from six lessons"; for one by hand who wrote it."""
    if not row.count:
        return f"written by {row.by.printed_name}"
    kind = "yield test" if row.kind == USABLE else "lesson"
    return f"learned from {wording.counted_words(row.count, kind)}"


def _of_these(row: KeptFigure, recipes: list[RecipeData]) -> bool:
    return any(row.recipe.code in (recipe.code, recipe.variant_of) for recipe in recipes)
