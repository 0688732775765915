"""What of a variant has to be read again, and which techniques it may have lost.

A step is read again when it speaks of a food that was replaced or left out, or makes a
component in which that happened, and still reads word for word as the ordinary recipe has
it. Equipment and notes that speak of the food are named too. It is to be looked at only.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from curriculum.recipes.data import RecipeData, StepData
from curriculum.recipes.variants.proposals import telling_words
from curriculum.wording import listed, plain

#: Every recipe begins with them; no food is needed for them.
EVERYDAY = frozenset(("mise_en_place", "weighing"))


@dataclass(frozen=True, slots=True)
class Reread:
    """One thing to read again: a step of the variant by its position, or None; its text; and why."""

    step: int | None
    text: str
    words: str


def to_reread(ordinary: RecipeData, variant: RecipeData) -> tuple[Reread, ...]:
    """Steps in their order, then equipment, notes and finished weights."""
    gone = gone_foods(ordinary, variant)
    if not gone:
        return ()
    touched = touched_components(ordinary, variant)
    before = {step.words: step for step in ordinary.steps}
    found = []
    for step in variant.steps:
        old = before.get(step.words)
        if old is None or (step.cue, step.caution) != (old.cue, old.caution):
            continue
        spoken = _spoken(step, gone)
        made = [name for code, name in touched.items() if code in old.components]
        if spoken:
            found.append(Reread(step.position, step.words, f"It speaks of {listed(spoken)}."))
        elif made:
            found.append(
                Reread(step.position, step.words, f"It makes or uses {listed(made)}, which changed.")
            )
    return (*found, *_around(ordinary, variant, gone))


def gone_foods(ordinary: RecipeData, variant: RecipeData) -> dict[str, frozenset[str]]:
    """Names of foods that the ordinary recipe has and the variant has not, with their telling words."""
    codes = {line.food for component in variant.components for line in component.lines}
    used = {line.food for component in ordinary.components for line in component.lines}
    kept = [telling_words(variant.food(code).name) for code in codes]
    names = [food.name for food in ordinary.foods if food.code in used - codes]
    return {name: telling_words(name) - frozenset().union(*kept) or telling_words(name) for name in names}


def touched_components(ordinary: RecipeData, variant: RecipeData) -> dict[str, str]:
    """Components in which a food is not there any more: names by code."""
    now = {each.code: {line.food for line in each.lines} for each in variant.components}
    return {
        each.code: each.name
        for each in ordinary.components
        if {line.food for line in each.lines} - now.get(each.code, set())
    }


def techniques_at_stake(
    recipe: RecipeData, lines: Mapping[str, Iterable[str]], names: Mapping[str, str], without: str
) -> dict[str, bool]:
    """Techniques of the steps that use the components: by code, whether to propose it as lost.

    ``lines`` gives, by component, the names of the foods that go; ``names`` the techniques'.
    Proposed is what is named after what goes: gluten development, without gluten.
    """
    words = telling_words(without.replace("_", " "))
    words |= frozenset(word for foods in lines.values() for food in foods for word in telling_words(food))
    found: dict[str, bool] = {}
    for step in recipe.steps:
        if set(step.components) & set(lines):
            for code in step.techniques:
                said = telling_words(names.get(code, "")) | telling_words(code.replace("_", " "))
                found[code] = bool(said & words)
    return {code: is_lost for code, is_lost in found.items() if code not in EVERYDAY}


def _spoken(step: StepData, gone: Mapping[str, frozenset[str]]) -> list[str]:
    ways = " ".join(way.words for way in step.ways)
    return _named(f"{step.words} {step.cue} {step.caution} {ways}", gone)


def _named(text: str, gone: Mapping[str, frozenset[str]]) -> list[str]:
    said = set(re.findall(r"[^\W\d_]+", plain(text)))
    said |= {word.removesuffix("s") for word in said} | {word.removesuffix("ed") for word in said}
    return [name for name, words in gone.items() if words & said]


def _around(
    ordinary: RecipeData, variant: RecipeData, gone: Mapping[str, frozenset[str]]
) -> Iterable[Reread]:
    for each in variant.equipment:
        if _named(each.item.replace("_", " "), gone) and each in ordinary.equipment:
            yield Reread(None, "Equipment", f"There is still the {each.item.replace('_', ' ')}.")
    for where in ("notes", "presentation", "caution"):
        text = getattr(variant, where)
        if text and text == getattr(ordinary, where) and _named(text, gone):
            yield Reread(
                None, where.capitalize(), f"What stands there speaks of {listed(_named(text, gone))}."
            )
    if variant.finished and variant.finished == ordinary.finished:
        yield Reread(None, "Finished weights", "They are still those of the ordinary recipe.")
