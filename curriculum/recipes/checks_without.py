"""Looked over: whether what a recipe is said to be made without is in it all the same.

A claim such as "made without milk" is held against the label of every food of the recipe,
dusting and washes included, and against the label of the whole piece a food is part of. A label
that declares it stops the recipe. A label that nobody has read and one that says "may contain" are
for a person to look at: no kit with an unread label leaves the stores.

Worked example: "without milk" with 20 g of butter for greasing stops and names the butter; with a
plant fat whose label says "may contain milk" it is to be looked at.
"""

from collections.abc import Iterator

from curriculum.recipes.data import RecipeData
from curriculum.recipes.finding import Finding
from curriculum.recipes.variants.avoided import Affected, affected, words_without
from curriculum.wording import listed


def claims(recipe: RecipeData) -> Iterator[Finding]:
    """What the labels say against each kind or group that the recipe is made without."""
    for code in recipe.free_from:
        said = f"It is said to be made {words_without(code)}"
        has, perhaps = affected(recipe, code), affected(recipe, code, "perhaps")
        unread = [each for each in perhaps if each.food.label_read_on is None]
        traces = [each for each in perhaps if each.food.label_read_on is not None]
        if has:
            words = (
                f"{said}, but the label of {_named(has)} declares it. Put another food in its place, or take "
                f"the claim out at the title."
            )
            yield Finding("claim_against_a_label", words, component=has[0].component.code)
        if unread:
            words = (
                f"{said}, but nobody has read the label of {_named(unread)}. Read the label and write down "
                f"what it says, or take another food."
            )
            yield Finding("claim_without_a_label", words, stops=False, component=unread[0].component.code)
        if traces:
            words = (
                f"{said}; the label of {_named(traces)} says that it may contain it. Whoever checks the "
                f"recipe decides, as the college’s own risk assessment says."
            )
            yield Finding("claim_with_traces", words, stops=False, component=traces[0].component.code)


def claims_kept(recipe: RecipeData) -> tuple[str, ...]:
    """The kinds and groups that it is said to be made without and that no label declares today."""
    return tuple(code for code in recipe.free_from if not affected(recipe, code))


def _named(found: list[Affected] | tuple[Affected, ...]) -> str:
    return listed(dict.fromkeys(f"{each.food.name} in {each.component.name}" for each in found))
