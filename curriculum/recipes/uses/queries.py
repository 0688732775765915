"""Which recipes use a food: taught now, and being written."""

from dataclasses import dataclass

from django.db.models import Q, QuerySet

from curriculum.foods.models import Food
from curriculum.recipes.models import Line, Version
from curriculum.recipes.queries import in_writing, latest_approved


@dataclass(frozen=True, slots=True)
class Use:
    """A version that uses the food: its lines as (component, food, milligrams)."""

    version: Version
    lines: tuple[tuple[str, str, int], ...]


def uses_of(food: Food) -> tuple[list[Use], list[Use]]:
    """Versions approved to teach and versions being written that use a food or a part of it.

    Four queries for any number of them.
    """
    return _uses(food, list(_using(food, latest_approved()))), _uses(food, list(_using(food, in_writing())))


def _of(food: Food) -> Q:
    return Q(food=food) | Q(food__made_from=food)


def _using(food: Food, versions: QuerySet[Version]) -> QuerySet[Version]:
    using = Line.objects.filter(_of(food)).values("component__version")
    return versions.filter(pk__in=using).defer("sheet").order_by("search_words", "number")


def _uses(food: Food, versions: list[Version]) -> list[Use]:
    lines: dict[int, list[tuple[str, str, int]]] = {version.pk: [] for version in versions}
    rows = Line.objects.filter(_of(food), component__version__in=lines).select_related("food", "component")
    for row in rows.order_by("component__position", "position"):
        said = (row.component.name, row.food.name, row.milligrams)
        lines[row.component.version_id].append(said)
    return [Use(version, tuple(lines[version.pk])) for version in versions]
