"""A recipe copied: a recipe of its own that begins as another one stands."""

from dataclasses import replace
from uuid import UUID

from django.db import transaction

from curriculum.people.models import User
from curriculum.recipes import queries
from curriculum.recipes.managers import demand_new_code, new_draft
from curriculum.recipes.models import Version
from curriculum.records.actions import once


@transaction.atomic
def copy_recipe(*, version: Version, title: str, code: str, by: User, key: UUID | None = None) -> Version:
    """A draft of a new recipe, as that version stands; it remembers which one it was made from.

    A copy of a variant is no variant any more; what it is written without stays. RuleBroken at
    the field ``code`` when a recipe has it.
    """

    def do() -> dict:
        demand_new_code(code)
        copied = replace(
            queries.recipe_data(version), code=code, title=title, variant_of=None, techniques_lost=()
        )
        return {"version": new_draft(copied, by, version).pk}

    said = {"version": version.pk, "title": title, "code": code}
    answer = once(key=key, action="copy_recipe", by=by, said=said, do=do)
    return Version.objects.select_related("recipe").get(pk=answer["version"])
