"""Why a kit may not leave: what a label says against what the kit is free from, or its learners avoid.

One rule for kits as they are planned, judged when a label is read, issued, and given later. Plain
data in, plain data out. An unread label stops a kit; so does a label that names what the kit is made
without, and one that names what somebody who works it avoids. A label that *may contain* what the kit
is made without stops it until a person has written down why it goes (``May``): a sheet or a box that
says "free from" is no longer true of it then.

Sources: that food which may contain an allergen is not offered as free from it is the Food Standards
Agency's guidance on precautionary labelling (from memory; the college's own procedure comes first).
That an unread label stops a kit is common practice, no source.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.allergens import KINDS, kinds_of, words_of
from curriculum.recipes.data import FoodData, RecipeData
from curriculum.wording import listed
from kitchen.lessons.diets import Avoids, blocked_words, check_recipe, declared_of


@dataclass(frozen=True, slots=True)
class Named:
    """What a label names of kinds that are left out: contained, or only perhaps (``may``)."""

    contains: tuple[str, ...] = ()
    may: tuple[str, ...] = ()


def named(food: FoodData, free_from: Iterable[str]) -> Named:
    """What the label of a food names of what is left out; ``free_from`` are codes of groups or kinds."""
    left_out = {kind for code in free_from for kind in kinds_of(code)}
    contains = tuple(kind for kind in KINDS if kind in left_out and kind in food.contains)
    may = tuple(kind for kind in KINDS if kind in left_out and kind in food.may_contain)
    return Named(contains, tuple(kind for kind in may if kind not in contains))


def may_contain(recipe: RecipeData) -> tuple[tuple[str, str], ...]:
    """Foods of a recipe that may contain what it is made without: pairs of name and the kinds in words."""
    found = ((food.name, named(food, recipe.free_from).may) for food in recipe.foods)
    return tuple((name, listed(map(words_of, kinds))) for name, kinds in found if kinds)


def blocked_why(
    recipe: RecipeData, learners: Iterable[tuple[Avoids, ...]] = (), *, may_go: bool = False
) -> str:
    """Why no kit of this recipe may leave for these learners; empty when nothing stops it.

    ``may_go``: somebody has written down why it goes although a label may contain what is left out.
    """
    reasons = (blocked_words(recipe), _contains(recipe), _avoided(recipe, learners))
    return next(filter(None, reasons), "") or ("" if may_go else _may(recipe))


def _contains(recipe: RecipeData) -> str:
    for food in recipe.foods:
        found = named(food, recipe.free_from).contains
        if found:
            return (
                f"The label of {food.name} says that it contains {words_of(found[0])}; this kit is free "
                f"from {listed(map(words_of, recipe.free_from))}."
            )
    return ""


def _avoided(recipe: RecipeData, learners: Iterable[tuple[Avoids, ...]]) -> str:
    for avoids in learners:
        for mark in check_recipe(avoids, recipe).declared:
            return (
                f"{mark.food} ({mark.component}): {mark.why} by its label, and somebody who works this kit "
                f"avoids {mark.avoids}. Give them another place or variant, then make the kits again."
            )
    return ""


def _may(recipe: RecipeData) -> str:
    for name, kinds in may_contain(recipe):
        return (
            f"The label of {name} says that it may contain {kinds}; this kit is made without. Take another "
            "food, or let the lecturer write down why it goes all the same."
        )
    return ""


def avoided_food(food: FoodData, whole: FoodData, learners: Iterable[tuple[Avoids, ...]]) -> str:
    """What of one food somebody avoids, and why: "avoids soya: contains soya"; empty when nothing."""
    for avoids in learners:
        for each in avoids:
            for why in declared_of(each, food, whole):
                return f"avoids {each.words}: {why}"
    return ""
