"""A variant of an approved recipe, written as a draft of its own."""

from dataclasses import replace
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.foods.queries import foods_data
from curriculum.people.models import User
from curriculum.recipes import queries
from curriculum.recipes.data import RecipeData
from curriculum.recipes.managers import demand_new_code, demand_state, new_draft
from curriculum.recipes.models import Version
from curriculum.recipes.variants.avoided import affected, free_from, words_without
from curriculum.recipes.variants.making import LineChange, changed
from curriculum.records.actions import once


@transaction.atomic
def make_variant(
    *,
    version: Version,
    without: str,
    title: str,
    code: str,
    changes: tuple[LineChange, ...],
    techniques_lost: tuple[str, ...],
    by: User,
    key: UUID | None = None,
) -> Version:
    """A draft of a new recipe, variant of this one. ``without`` is a code of ``avoided.CODES``.

    RuleBroken for a version that is not approved or is itself a variant, for a code that is
    taken, and while a line still has what is to be left out.
    """

    def do() -> dict:
        demand_state(version, Version.State.APPROVED, "made a variant of")
        _demand_ordinary(version)
        demand_new_code(code)
        foods = foods_data(change.food for change in changes if change.food is not None)
        made = changed(queries.recipe_data(version), changes, techniques_lost, foods)
        made = replace(
            made, code=code, title=title, variant_of=version.recipe.code, free_from=free_from(without)
        )
        _demand_without(made, without)
        return {"version": new_draft(made, by, version).pk}

    said = {
        "version": version.pk,
        "without": without,
        "title": title,
        "code": code,
        "changes": [repr(change) for change in changes],
        "lost": list(techniques_lost),
    }
    answer = once(key=key, action="make_variant", by=by, said=said, do=do)
    return Version.objects.select_related("recipe").get(pk=answer["version"])


def _demand_ordinary(version: Version) -> None:
    if version.recipe.variant_of_id is not None:
        raise RuleBroken(
            "variant_of_a_variant",
            f"{version.recipe.title} is a variant itself. Make the variant of "
            f"{version.recipe.variant_of.title}, the ordinary recipe.",
        )


def _demand_without(recipe: RecipeData, without: str) -> None:
    left = affected(recipe, without)
    if left:
        raise RuleBroken(
            "still_has_it",
            f"{left[0].food.name} in {left[0].component.name} is not {words_without(without)}. "
            "Choose another food for it, or leave the line out.",
            found=len(left),
        )
