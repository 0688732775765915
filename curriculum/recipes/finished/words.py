"""What finished weights say in words, and what is proposed beside the forms of the head of a recipe.

For the writing pages. Nothing proposed is written by itself: a person types or ticks it.
"""

from collections.abc import Iterator

from curriculum import wording
from curriculum.allergens import GROUPS
from curriculum.recipes import portions
from curriculum.recipes.data import FinishedData, RecipeData


def finished_words(recipe: RecipeData) -> tuple[str, ...]:
    """Each finished weight as a sentence: "Lemon custard: 760 g finished, 95 g a wedge, so eight wedges."."""
    return tuple(_finished(recipe, each) for each in recipe.finished)


def reckoned(recipe: RecipeData) -> tuple[str, ...]:
    """Sentences above the title form: portions by weight, and what none of the foods declares."""
    return (*_portions(recipe), *_undeclared(recipe))


def put_in(recipe: RecipeData) -> tuple[str, ...]:
    """Sentences above the form of finished weights: what is weighed into each component."""
    weights = [
        f"{each.name} {wording.amount(sum(line.milligrams for line in each.lines if line.enters_portion))}"
        for each in recipe.components
        if each.lines
    ]
    if not weights:
        return ("Nothing is weighed into it yet. Write the components and their lines first.",)
    return (f"Weighed in and not taken out again: {wording.listed(weights)}. Finished, it weighs less.",)


def techniques_of(recipe: RecipeData) -> tuple[str, ...]:
    """Codes of the techniques that its steps train, each once, in the order of the steps."""
    return tuple(dict.fromkeys(code for step in recipe.steps for code in step.techniques))


def lost(ordinary: RecipeData, variant: RecipeData) -> tuple[str, ...]:
    """Codes of techniques that the ordinary recipe trains and the variant does not."""
    kept = techniques_of(variant)
    return tuple(code for code in techniques_of(ordinary) if code not in kept)


def _finished(recipe: RecipeData, part: FinishedData) -> str:
    names = [each.name for each in recipe.components if each.code in part.components]
    unit = recipe.unit or "portion"
    words = f"{wording.listed(names)}: {wording.amount(part.milligrams)} finished"
    if part.milligrams_per_portion:
        gives = part.milligrams // part.milligrams_per_portion
        words += f", {wording.amount(part.milligrams_per_portion)} a {unit}"
        words += f", so {wording.counted_words(gives, unit, wording.plural(unit))}"
    return f"{words}. {part.basis}".strip() if part.basis else f"{words}."


def _portions(recipe: RecipeData) -> Iterator[str]:
    had, unit = portions.to_be_had(recipe), recipe.unit or "portion"
    if had is not None:
        counted = wording.counted_words(had, unit, wording.plural(unit))
        yield f"By its finished weights, less rejects, {counted} are to be had."


def _undeclared(recipe: RecipeData) -> Iterator[str]:
    if not recipe.foods:
        return
    named = {kind for food in recipe.foods for kind in (*food.contains, *food.may_contain)}
    absent = [words for words, kinds in GROUPS.values() if not named & {*kinds}]
    unread = [food.name for food in recipe.foods if food.label_read_on is None and not food.from_tap]
    if absent:
        yield f"Declared by none of its foods: {wording.listed(absent)}."
    if unread:
        yield f"No label is read of {wording.listed(unread)}, so nothing is known of that."
