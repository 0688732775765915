"""Writing recipes: a draft is written and changed; ``approval`` sends, checks and approves it.

A version in draft is rows and may be changed. Approval keeps the whole recipe as the
version's sheet, which calculations read; a version approved never changes again: a new
version is made from it.
"""

from collections.abc import Callable
from dataclasses import replace
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.recipes import editing, queries
from curriculum.recipes.data import ComponentData, LineData, RecipeData, StepData
from curriculum.recipes.managers import (
    demand_state,
    locked,
    new_draft,
    recipe_row,
    write_head,
    write_parts,
)
from curriculum.recipes.models import Version
from curriculum.recipes.opened.parts import component_in, fingerprint, head, lines_in, step_in, whole
from curriculum.recipes.sheets import write_sheet
from curriculum.records.actions import once

Change = Callable[[RecipeData], RecipeData]
#: The part of a recipe that a change is about; None where it is gone.
Part = Callable[[RecipeData], object]


@transaction.atomic
def write_recipe(*, recipe: RecipeData, by: User, key: UUID | None = None) -> Version:
    """Write a whole recipe as a new draft: of a new recipe, or the next version of one with that code.

    RuleBroken when the recipe has a draft already, or names a food, a technique or an
    ordinary recipe that is not in the book. The number in ``recipe`` is not used.
    """

    def do() -> dict:
        return {"version": new_draft(recipe, by, None).pk}

    answer = once(key=key, action="write_recipe", by=by, said={"recipe": write_sheet(recipe)}, do=do)
    return _version(answer["version"])


@transaction.atomic
def revise(*, version: Version, by: User, key: UUID | None = None) -> Version:
    """Make a new draft from a version. RuleBroken when the recipe has a draft already."""

    def do() -> dict:
        return {"version": new_draft(queries.recipe_data(version), by, version).pk}

    answer = once(key=key, action="revise", by=by, said={"version": version.pk}, do=do)
    return _version(answer["version"])


@transaction.atomic
def write_title(*, version: Version, recipe: RecipeData, by: User, seen: str = "") -> Version:
    """Write what stands above the components: title, level, portions, words, tins, equipment."""
    parts = {"components", "steps", "foods", "code", "number"}

    def change(before: RecipeData) -> RecipeData:
        kept = {name: getattr(before, name) for name in parts}
        return type(before)(
            **{name: getattr(recipe, name) for name in before.__dataclass_fields__ if name not in parts},
            **kept,
        )

    return change_draft(version, by, change, seen, head)


@transaction.atomic
def put_component(*, version: Version, component: ComponentData, by: User, seen: str = "") -> Version:
    """Add a component with its lines, or write it anew in the place of the one with its code."""

    def change(recipe: RecipeData) -> RecipeData:
        return editing.with_component(recipe, component)

    return change_draft(version, by, change, seen, lambda recipe: component_in(recipe, component.code))


@transaction.atomic
def remove_component(*, version: Version, code: str, by: User, seen: str = "") -> Version:
    """Take a component out; steps and tins let it go."""
    return change_draft(version, by, lambda recipe: editing.without_component(recipe, code), seen)


@transaction.atomic
def put_lines(
    *,
    version: Version,
    code: str,
    lines: tuple[LineData, ...],
    by: User,
    key: UUID | None = None,
    measures: str = "",
    seen: str = "",
) -> Version:
    """Add lines to a component (position 0), or write those at their positions anew.

    ``measures`` is the system that their amounts are written in; it is kept where the recipe has none.
    """

    def change(recipe: RecipeData) -> RecipeData:
        written = editing.with_lines(recipe, code, lines)
        return replace(written, measures=recipe.measures or measures)

    def do() -> dict:
        change_draft(version, by, change, seen, lambda recipe: lines_in(recipe, code, places))
        return {"version": version.pk}

    places = [line.position for line in lines]
    said = {"version": version.pk, "component": code, "lines": [repr(line) for line in lines]}
    once(key=key, action="put_lines", by=by, said=said, do=do)
    return _version(version.pk)


@transaction.atomic
def remove_line(*, version: Version, code: str, position: int, by: User, seen: str = "") -> Version:
    """Take a line out of a component."""
    return change_draft(version, by, lambda recipe: editing.without_line(recipe, code, position), seen)


@transaction.atomic
def add_step(
    *, version: Version, step: StepData, by: User, before: int | None = None, key: UUID | None = None
) -> Version:
    """Add a step before another one, or last. RuleBroken when steps would wait in a ring."""

    def do() -> dict:
        change_draft(version, by, lambda recipe: editing.with_step(recipe, step, before))
        return {"version": version.pk}

    said = {"version": version.pk, "step": repr(step), "before": before}
    once(key=key, action="add_step", by=by, said=said, do=do)
    return _version(version.pk)


@transaction.atomic
def change_step(*, version: Version, step: StepData, by: User, seen: str = "") -> Version:
    """Write a step anew: its words, ways, stays and what it comes after."""

    def change(recipe: RecipeData) -> RecipeData:
        return editing.changed_step(recipe, step)

    return change_draft(version, by, change, seen, lambda recipe: step_in(recipe, step.position))


@transaction.atomic
def remove_step(*, version: Version, position: int, by: User, seen: str = "") -> Version:
    """Take a step out; the steps behind it move up."""
    return change_draft(version, by, lambda recipe: editing.without_step(recipe, position), seen)


@transaction.atomic
def move_step(
    *, version: Version, position: int, places: int, by: User, seen: str = "", key: UUID | None = None
) -> Version:
    """Read a step so many places later (below 0: earlier); what it comes after stays the same."""

    def do() -> dict:
        change_draft(
            version, by, lambda recipe: editing.moved_step(recipe, position, position + places), seen
        )
        return {"version": version.pk}

    said = {"version": version.pk, "step": position, "places": places}
    once(key=key, action="move_step", by=by, said=said, do=do)
    return _version(version.pk)


def change_draft(version: Version, by: User, change: Change, seen: str = "", part: Part = whole) -> Version:
    """Change a draft as a whole; whoever changes it last has written it. Inside a transaction.

    ``seen`` is the fingerprint of the ``part`` as whoever writes saw it; RuleBroken when that part
    stands otherwise by now. Empty: not asked.
    """
    version = locked(version)
    demand_state(version, Version.State.DRAFT, "changed")
    before = queries.recipe_data(version)
    if seen and fingerprint(part(before)) != seen:
        raise RuleBroken(
            "changed_meanwhile",
            f"{version.written_by.name} changed version {version.number} of {version.recipe.title} after you "
            "opened it, so nothing was written. Open it again and look it over.",
        )
    recipe = change(before)
    recipe_row(recipe)
    version.written_by, version.sent_at = by, None
    write_head(version, recipe)
    version.save()
    write_parts(version, recipe)
    return _version(version.pk)


def _version(pk: int) -> Version:
    return Version.objects.select_related("recipe").get(pk=pk)
