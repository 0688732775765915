"""Lays a large book in bulk rows: recipes approved to teach, one statement for many of them.

``lay_book(invented_book(5000), by=writer, checker=reader)``, once foods and techniques stand.
A recipe is written as the actions write it: head, words to search by, figures, rows, frozen sheet.
"""

from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime

from django.db import transaction

from curriculum.foods.models import Food
from curriculum.foods.queries import prices
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.data import RecipeData
from curriculum.recipes.figures import figures_of
from curriculum.recipes.managers import write_figures, write_head
from curriculum.recipes.models import After, Component, Line, Recipe, Stay, Step, StepTechnique, Version, Way
from curriculum.recipes.queries import (
    AFTER_FIELDS,
    COMPONENT_FIELDS,
    LINE_FIELDS,
    STAY_FIELDS,
    STEP_FIELDS,
    WAY_FIELDS,
)
from curriculum.recipes.search import words_of
from curriculum.recipes.sheets import sheet_hash, write_sheet
from curriculum.techniques.models import Technique

APPROVED_AT = datetime(2027, 1, 8, 12, tzinfo=UTC)
#: Recipes written by one round of statements.
AT_ONCE = 250


def lay_book(recipes: Iterable[RecipeData], *, by: User, checker: User) -> int:
    """Write them as approved by ``checker``; how many. KeyError for an unknown food or technique."""
    foods = {food.code: food for food in Food.objects.all()}
    techniques = {technique.code: technique for technique in Technique.objects.all()}
    laid = 0
    for some in _by_number(recipes, AT_ONCE):
        with transaction.atomic():
            _lay(some, foods, techniques, by, checker)
        laid += len(some)
    return laid


def _by_number(recipes: Iterable[RecipeData], number: int) -> Iterator[list]:
    heap: list = []
    for recipe in recipes:
        heap.append(recipe)
        if len(heap) == number:
            yield heap
            heap = []
    if heap:
        yield heap


def _lay(recipes: list, foods: dict, techniques: dict, by: User, checker: User) -> None:
    rows = Recipe.objects.bulk_create(
        Recipe(code=recipe.code, title=recipe.title, level=recipe.level) for recipe in recipes
    )
    today = today_at(the_college())
    packs, names = prices(today), {code: food.name for code, food in foods.items()}
    shown = {code: technique.name for code, technique in techniques.items()}
    versions = Version.objects.bulk_create(
        _version(row, recipe, shown, names, packs, by, checker, today)
        for row, recipe in zip(rows, recipes, strict=True)
    )
    pairs = list(zip(versions, recipes, strict=True))
    _lay_steps(pairs, _lay_components(pairs, foods), techniques)


def _version(
    row: Recipe,
    recipe: RecipeData,
    techniques: dict,
    foods: dict,
    packs: dict,
    by: User,
    checker: User,
    today: date,
) -> Version:
    version = Version(recipe=row, number=1, written_by=by, checked_by=checker, approved_at=APPROVED_AT)
    write_head(version, recipe)
    version.search_words = words_of(recipe, techniques, foods)
    write_figures(version, figures_of(recipe, packs), today)
    version.sheet = write_sheet(recipe)
    version.sheet_hash = sheet_hash(version.sheet)
    version.state = Version.State.APPROVED
    return version


def _lay_components(pairs: list, foods: dict) -> dict:
    """Components and lines; the component of each version by its code."""
    said = [
        (version, place, part) for version, recipe in pairs for place, part in _numbered(recipe.components)
    ]
    rows = Component.objects.bulk_create(
        Component(version=version, position=place, **_same(part, COMPONENT_FIELDS))
        for version, place, part in said
    )
    Line.objects.bulk_create(
        Line(
            component=row,
            food=foods[line.food],
            scaling_class=line.scaling_class or "",
            **_same(line, LINE_FIELDS),
        )
        for row, (_, _, part) in zip(rows, said, strict=True)
        for line in part.lines
    )
    return {(row.version_id, row.code): row for row in rows}


def _lay_steps(pairs: list, components: dict, techniques: dict) -> None:
    said = [(version, step) for version, recipe in pairs for step in recipe.steps]
    rows = Step.objects.bulk_create(
        Step(version=version, **_same(step, STEP_FIELDS)) for version, step in said
    )
    steps = [(row, step) for row, (_, step) in zip(rows, said, strict=True)]
    _lay_work(steps)
    _lay_links(steps, components, techniques)


def _lay_work(steps: list) -> None:
    Way.objects.bulk_create(
        Way(step=row, position=place, **_same(way, WAY_FIELDS))
        for row, step in steps
        for place, way in _numbered(step.ways)
    )
    Stay.objects.bulk_create(
        Stay(step=row, position=place, appliance_kind=stay.appliance_kind or "", **_same(stay, STAY_FIELDS))
        for row, step in steps
        for place, stay in _numbered(step.stays)
    )
    at = {(row.version_id, step.position): row for row, step in steps}
    After.objects.bulk_create(
        After(step=row, needs=at[row.version_id, after.needs], **_same(after, AFTER_FIELDS))
        for row, step in steps
        for after in step.after
    )


def _lay_links(steps: list, components: dict, techniques: dict) -> None:
    StepTechnique.objects.bulk_create(
        StepTechnique(step=row, technique=techniques[code], position=place)
        for row, step in steps
        for place, code in _numbered(step.techniques)
    )
    links = Step.components.through
    links.objects.bulk_create(
        links(step=row, component=components[row.version_id, code])
        for row, step in steps
        for code in step.components
    )


def _numbered(parts: tuple) -> Iterator:
    return enumerate(parts, start=1)


def _same(part: object, fields: list[str]) -> dict[str, object]:
    return {name: getattr(part, name) for name in fields}
