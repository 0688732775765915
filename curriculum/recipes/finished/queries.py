"""Which techniques a variant may have lost, by name, and a sentence that proposes them."""

from curriculum import wording
from curriculum.recipes import queries
from curriculum.recipes.data import RecipeData
from curriculum.recipes.finished.words import lost, techniques_of


def may_be_lost(variant: RecipeData) -> tuple[dict[str, str], tuple[str, ...]]:
    """Names by code of techniques to choose from, and what is proposed; nothing for an ordinary recipe."""
    if variant.variant_of is None and not variant.techniques_lost:
        return {}, ()
    version = queries.approved(variant.variant_of or "")
    ordinary = queries.recipe_data(version) if version is not None else variant
    names = queries.technique_names((*techniques_of(ordinary), *variant.techniques_lost))
    proposed = [names.get(code, code) for code in lost(ordinary, variant)]
    says = (
        f"{ordinary.title} trains {wording.listed(proposed)}; no step of this one does." if proposed else ""
    )
    return names, ((says,) if says else ())
