"""A RecipeData written into the rows of a draft, whole; the other way round is ``queries``.

For the actions alone, with what several of them ask of a version before they change it. The
parts of a draft are taken out and written anew in a few bulk statements, so that a change of
one line cannot leave half a recipe behind.
"""

from collections.abc import Iterable
from dataclasses import asdict, replace
from datetime import date

from django.db.models import Max

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.foods.queries import foods_data, prices
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes import editing
from curriculum.recipes.data import RecipeData, StepData
from curriculum.recipes.figures import Figures, figures_of
from curriculum.recipes.models import (
    After,
    Component,
    Line,
    Recipe,
    RecipeFreeFrom,
    Stay,
    Step,
    StepTechnique,
    Version,
    Way,
)
from curriculum.recipes.queries import (
    AFTER_FIELDS,
    COMPONENT_FIELDS,
    LINE_FIELDS,
    LIST_FIELDS,
    STAY_FIELDS,
    STEP_FIELDS,
    VERSION_FIELDS,
    WAY_FIELDS,
)
from curriculum.recipes.search import words_of
from curriculum.techniques.models import Technique

WHOLE_FIELDS = ("tins", "finished", "equipment")

#: What the book is narrowed and sorted by.
FIGURES = ["one_cook_minutes", "work_minutes", "oven_minutes", "portion_pence", "costed_on"]


def locked(version: Version) -> Version:
    """The version as it stands now, its row kept from others until the change is done."""
    return Version.objects.select_for_update(of=("self",)).select_related("recipe").get(pk=version.pk)


def demand_state(version: Version, state: str, deed: str) -> None:
    """RuleBroken when the version is not in that state; ``deed`` completes "can be …"."""
    if version.state != state:
        wanted = Version.State(state).label
        now = Version.State(version.state).label
        raise RuleBroken(
            "wrong_state",
            f"Version {version.number} of {version.recipe.title} is {now}; only what is {wanted} "
            f"can be {deed}. To change it, revise it: that makes a new draft.",
            state=version.state,
        )


def demand_no_draft(recipe: Recipe) -> None:
    """RuleBroken when the recipe has a draft."""
    draft = recipe.versions.filter(state=Version.State.DRAFT).first()
    if draft is not None:
        raise RuleBroken(
            "has_a_draft",
            f"{recipe.title} has a draft already, version {draft.number}. Go on with that one.",
            number=draft.number,
        )


def demand_new_code(code: str) -> None:
    """RuleBroken at the field ``code`` when a recipe has it, in capitals or not."""
    taken = Recipe.objects.filter(code__iexact=code).first()
    if taken is not None:
        raise RuleBroken(
            "code_taken", f"“{code}” is taken by {taken.title}. Write another one.", field="code"
        )


def new_draft(recipe: RecipeData, by: User, made_from: Version | None) -> Version:
    """Write a recipe as the next draft of the recipe with its code, or of a new one. RuleBroken."""
    row = recipe_row(recipe)
    demand_no_draft(row)
    last = row.versions.aggregate(last=Max("number"))["last"] or 0
    version = Version(recipe=row, number=last + 1, written_by=by, made_from=made_from)
    write_head(version, recipe)
    version.save()
    write_parts(version, editing.numbered(recipe))
    return version


def recipe_row(recipe: RecipeData) -> Recipe:
    """The recipe's own row with its title, level and what it is free from, locked. RuleBroken."""
    ordinary = None
    if recipe.variant_of is not None:
        ordinary = Recipe.objects.filter(code=recipe.variant_of).first()
        if ordinary is None:
            raise RuleBroken("no_such_recipe", f"There is no recipe {recipe.variant_of} to be a variant of.")
    row, _ = Recipe.objects.select_for_update().update_or_create(
        code=recipe.code,
        defaults={"title": recipe.title, "level": recipe.level, "variant_of": ordinary},
    )
    row.free_from.all().delete()
    RecipeFreeFrom.objects.bulk_create(RecipeFreeFrom(recipe=row, kind=kind) for kind in recipe.free_from)
    return row


def write_figures(version: Version, figures: Figures, costed_on: date) -> None:
    """Set on a version what the book is narrowed by; a cost that is known has its day. Nothing is saved."""
    for name, value in asdict(figures).items():
        setattr(version, name, value)
    version.costed_on = None if figures.portion_pence is None else costed_on


def write_head(version: Version, recipe: RecipeData) -> None:
    """Set on a version what stands above its components. Nothing is saved."""
    for name in VERSION_FIELDS:
        setattr(version, name, getattr(recipe, name))
    for name in LIST_FIELDS:
        setattr(version, name, list(getattr(recipe, name)))
    version.carried = [list(pair) for pair in recipe.carried]
    for name in WHOLE_FIELDS:
        setattr(version, name, [asdict(each) for each in getattr(recipe, name)])


def write_parts(version: Version, recipe: RecipeData) -> None:
    """Write components, lines and steps of a draft anew, the words it is found by and its figures.

    RuleBroken for a food or a technique that is not in the book.
    """
    foods, techniques = _foods(recipe), _techniques(recipe)
    version.steps.all().delete()
    version.components.all().delete()
    components = _write_components(version, recipe, foods)
    _write_steps(version, recipe, components, techniques)
    names = {code: technique.name for code, technique in techniques.items()}
    version.search_words = words_of(recipe, names, {code: food.name for code, food in foods.items()})
    whole = replace(recipe, foods=tuple(foods_data(foods).values()))
    today = today_at(the_college())
    write_figures(version, figures_of(whole, prices(today, [food.code for food in whole.foods])), today)
    version.save(update_fields=["search_words", *FIGURES])


def _foods(recipe: RecipeData) -> dict[str, Food]:
    codes = {line.food for component in recipe.components for line in component.lines}
    return _known(Food.objects.filter(code__in=codes), codes, "food")


def _techniques(recipe: RecipeData) -> dict[str, Technique]:
    codes = {code for step in recipe.steps for code in step.techniques}
    return _known(Technique.objects.filter(code__in=codes), codes, "technique")


def _known(rows: Iterable, codes: set[str], what: str) -> dict:
    found = {row.code: row for row in rows}
    missing = sorted(codes - set(found))
    if missing:
        raise RuleBroken(
            f"no_such_{what}", f"There is no {what} “{missing[0]}” in the book.", missing=missing
        )
    return found


def _write_components(version: Version, recipe: RecipeData, foods: dict[str, Food]) -> dict[str, Component]:
    made = Component.objects.bulk_create(
        Component(version=version, position=place, **_same(component, COMPONENT_FIELDS))
        for place, component in enumerate(recipe.components, start=1)
    )
    by_code = {component.code: component for component in made}
    Line.objects.bulk_create(
        Line(
            component=by_code[component.code],
            food=foods[line.food],
            scaling_class=line.scaling_class or "",
            **_same(line, LINE_FIELDS),
        )
        for component in recipe.components
        for line in component.lines
    )
    return by_code


def _write_steps(
    version: Version, recipe: RecipeData, components: dict[str, Component], techniques: dict[str, Technique]
) -> None:
    made = Step.objects.bulk_create(
        Step(version=version, **_same(step, STEP_FIELDS)) for step in recipe.steps
    )
    rows = {step.position: step for step in made}
    pairs = [(step, rows[step.position]) for step in recipe.steps]
    Way.objects.bulk_create(way for step, row in pairs for way in _ways(step, row))
    Stay.objects.bulk_create(stay for step, row in pairs for stay in _stays(step, row))
    After.objects.bulk_create(
        After(step=row, needs=rows[after.needs], **_same(after, AFTER_FIELDS))
        for step, row in pairs
        for after in step.after
    )
    StepTechnique.objects.bulk_create(
        StepTechnique(step=row, technique=techniques[code], position=place)
        for step, row in pairs
        for place, code in enumerate(step.techniques, start=1)
    )
    links = Step.components.through
    links.objects.bulk_create(
        links(step=row, component=components[code]) for step, row in pairs for code in step.components
    )


def _ways(step: StepData, row: Step) -> list[Way]:
    return [Way(step=row, position=n, **_same(way, WAY_FIELDS)) for n, way in enumerate(step.ways, start=1)]


def _stays(step: StepData, row: Step) -> list[Stay]:
    return [
        Stay(step=row, position=n, appliance_kind=stay.appliance_kind or "", **_same(stay, STAY_FIELDS))
        for n, stay in enumerate(step.stays, start=1)
    ]


def _same(part: object, fields: Iterable[str]) -> dict[str, object]:
    return {name: getattr(part, name) for name in fields}
