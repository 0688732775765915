"""What a copy must not be called, and what a version was copied from."""

from curriculum.recipes.models import Recipe, Version


def taken_codes() -> set[str]:
    """The code of every recipe of the book. One query."""
    return set(Recipe.objects.values_list("code", flat=True))


def copied_from(version: Version) -> Version | None:
    """The version of another recipe that this one was copied from; a variant is no copy. No query.

    ``version`` has ``recipe`` and ``made_from__recipe`` read.
    """
    made_from = version.made_from
    if made_from is None or made_from.recipe_id == version.recipe_id:
        return None
    return None if version.recipe.variant_of_id == made_from.recipe_id else made_from
