"""Which versions are compared with one another: a recipe's own, its copies, its variants."""

from django.db.models import Q

from curriculum.recipes.models import Recipe, Version


def family(recipe: Recipe, approved_only: bool) -> list[Version]:
    """Every version of a recipe, of what it was made from, of its copies and of its variants. One query."""
    its = recipe.versions.values("pk")
    ordinary = recipe.variant_of_id or recipe.pk
    found = Version.objects.filter(
        Q(recipe__in=[recipe.pk, ordinary])
        | Q(recipe__variant_of=ordinary)
        | Q(made_from__in=its)
        | Q(pk__in=recipe.versions.values("made_from"))
    )
    if approved_only:
        found = found.filter(state=Version.State.APPROVED)
    return list(found.select_related("recipe").order_by("recipe__title", "recipe", "-number"))
