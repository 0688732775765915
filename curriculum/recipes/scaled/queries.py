"""What "Scale it" reads of the book beside the recipe: prices, parts of eggs, and who uses them."""

from datetime import date

from django.db.models import Exists, OuterRef, Sum

from curriculum.foods.models import Food
from curriculum.foods.queries import prices
from curriculum.recipes.data import RecipeData
from curriculum.recipes.egg_counts import PartOf, PartUse, is_egg
from curriculum.recipes.models import Line, Version
from curriculum.recipes.scaled.page import Book


def the_book(recipe: RecipeData, day: date) -> Book:
    """Prices of a day and what left-over white and yolk would make. Three queries, one without eggs."""
    eggs = [food.code for food in recipe.foods if is_egg(food)]
    parts = parts_of(eggs) if eggs else ()
    found = prices(day, {*(food.code for food in recipe.foods), *(part.part for part in parts)})
    return Book(found, parts, part_uses([each.part for each in parts]) if parts else ())


def parts_of(wholes: list[str]) -> tuple[PartOf, ...]:
    """What whole pieces give of each of their parts. One query."""
    rows = Food.objects.filter(made_from__code__in=wholes, retired_at=None).order_by("code")
    fields = rows.values_list("code", "name", "made_from__code", "made_from_milligrams")
    return tuple(PartOf(*row) for row in fields)


def part_uses(parts: list[str]) -> tuple[PartUse, ...]:
    """What one stated batch of each approved recipe takes of these foods. One query.

    The lines come first and the newer version is looked for line by line: asked the other way
    round, PostgreSQL went through every version of the book for every line.
    """
    approved = Version.objects.filter(state=Version.State.APPROVED)
    newer = approved.filter(
        recipe=OuterRef("component__version__recipe"), number__gt=OuterRef("component__version__number")
    )
    lines = Line.objects.filter(food__code__in=parts, component__version__state=Version.State.APPROVED)
    lines = lines.exclude(Exists(newer))
    rows = (
        lines.values_list(
            "food__code", "component__version__recipe__code", "component__version__recipe__title"
        )
        .annotate(milligrams=Sum("milligrams"))
        .order_by("component__version__recipe__title")
    )
    return tuple(PartUse(*row) for row in rows)
