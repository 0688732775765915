"""Changing a draft from the forms of the writer: components added, parts moved, tins written."""

from dataclasses import replace
from uuid import UUID

from django.db import transaction

from curriculum.people.models import User
from curriculum.recipes import editing
from curriculum.recipes.actions import change_draft
from curriculum.recipes.data import ComponentData, RecipeData, TinData
from curriculum.recipes.models import Version
from curriculum.records.actions import once


@transaction.atomic
def add_component(*, version: Version, component: ComponentData, by: User, key: UUID | None = None) -> str:
    """Add a component under the first free letter, which is returned. RuleBroken when all are taken."""

    def do() -> dict:
        made: list[str] = []

        def change(recipe: RecipeData) -> RecipeData:
            made.append(editing.free_code(recipe))
            return editing.with_component(recipe, replace(component, code=made[0]))

        change_draft(version, by, change)
        return {"component": made[0]}

    said = {"version": version.pk, "component": repr(component)}
    return once(key=key, action="add_component", by=by, said=said, do=do)["component"]


@transaction.atomic
def move_component(
    *, version: Version, code: str, places: int, by: User, seen: str = "", key: UUID | None = None
) -> Version:
    """Read a component so many places later (below 0: earlier); it stays at an end."""

    def do() -> dict:
        change_draft(version, by, lambda recipe: editing.moved_component(recipe, code, places), seen)
        return {"version": version.pk}

    said = {"version": version.pk, "component": code, "places": places}
    once(key=key, action="move_component", by=by, said=said, do=do)
    return Version.objects.select_related("recipe").get(pk=version.pk)


@transaction.atomic
def move_line(
    *,
    version: Version,
    code: str,
    position: int,
    places: int,
    by: User,
    seen: str = "",
    key: UUID | None = None,
) -> Version:
    """Read a line of a component so many places later (below 0: earlier); it stays at an end."""

    def do() -> dict:
        change_draft(version, by, lambda recipe: editing.moved_line(recipe, code, position, places), seen)
        return {"version": version.pk}

    said = {"version": version.pk, "component": code, "line": position, "places": places}
    once(key=key, action="move_line", by=by, said=said, do=do)
    return Version.objects.select_related("recipe").get(pk=version.pk)


@transaction.atomic
def add_tin(*, version: Version, tin: TinData, by: User, key: UUID | None = None) -> Version:
    """Add a kind of tin as the last one."""

    def do() -> dict:
        change_draft(version, by, lambda recipe: replace(recipe, tins=(*recipe.tins, tin)))
        return {"version": version.pk}

    once(key=key, action="add_tin", by=by, said={"version": version.pk, "tin": repr(tin)}, do=do)
    return Version.objects.select_related("recipe").get(pk=version.pk)


@transaction.atomic
def put_tin(*, version: Version, place: int, tin: TinData | None, by: User, seen: str = "") -> Version:
    """Write the tin at a place (from 1) anew, or take it out (None). ``seen`` is of all tins."""

    def change(recipe: RecipeData) -> RecipeData:
        kept = [*recipe.tins]
        kept[place - 1 : place] = [] if tin is None else [tin]
        return replace(recipe, tins=tuple(kept))

    return change_draft(version, by, change, seen, lambda recipe: recipe.tins)
