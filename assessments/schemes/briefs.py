"""What a brief copies from the dish: the targets of measured criteria, the techniques marked.

Targets are kept as JSON of shape 1, read by one reader. The core temperature is that of
the last step of the method which holds one for a stated time; a temperature without a
time is a point to watch in the making, not what the food must reach.
"""

from collections.abc import Collection, Mapping
from dataclasses import asdict

from assessments.schemes.card import Targets
from curriculum.recipes.data import RecipeData

#: The shape of kept targets that is written today.
SHAPE = 1
#: Techniques of every lesson, marked under organisation and not as a technical skill of the dish.
GENERAL = ("weighing", "mise_en_place")


class UnreadableTargets(ValueError):
    """The kept targets have a shape that nobody can read."""


def targets_of(recipe: RecipeData, portions: int) -> Targets:
    """The targets of a dish of which one bench makes so many portions."""
    core = [step for step in recipe.steps if step.core_decicelsius is not None and step.core_seconds]
    return Targets(
        portion_milligrams=recipe.portion_milligrams or None,
        portions=portions,
        serve_low_decicelsius=recipe.serve_low_decicelsius,
        serve_high_decicelsius=recipe.serve_high_decicelsius,
        core_decicelsius=core[-1].core_decicelsius if core else None,
        core_seconds=core[-1].core_seconds if core else None,
    )


def write_targets(targets: Targets) -> dict:
    """Targets as plain JSON values."""
    return {"shape": SHAPE, **asdict(targets)}


def read_targets(kept: Mapping) -> Targets:
    """The targets that kept JSON holds. UnreadableTargets for another shape or an unknown field."""
    if kept.get("shape") != SHAPE:
        raise UnreadableTargets(f"Targets of shape {kept.get('shape')!r} cannot be read.")
    try:
        return Targets(**{name: value for name, value in kept.items() if name != "shape"})
    except TypeError as error:
        raise UnreadableTargets(f"The targets cannot be read: {error}.") from error


def techniques_of(recipe: RecipeData) -> tuple[str, ...]:
    """The techniques that the method trains, in its order, each once."""
    found: dict[str, None] = {}
    for step in recipe.steps:
        found |= dict.fromkeys(step.techniques)
    return tuple(found)


def proposed_techniques(
    recipe: RecipeData, count: int, wanted: Collection[str] = (), levels: Mapping[str, str] | None = None
) -> tuple[str, ...]:
    """Which techniques to mark: those wanted that this dish trains, then the next of its method.

    Specific techniques come before general ones, and advanced before foundation where
    ``levels`` (code to level) are known. ``count`` 0 means all specific ones. The answer is
    in the order of the method; it is shorter when the dish trains fewer.
    """
    trained = techniques_of(recipe)
    specific = [code for code in trained if code not in GENERAL]
    if count == 0:
        return tuple(code for code in specific if not wanted or code in wanted)
    rank = {"advanced": 0, "intermediate": 1, "foundation": 2}
    by_level = sorted(specific, key=lambda code: rank.get((levels or {}).get(code, ""), 1))
    general = [code for code in trained if code in GENERAL]
    first = [code for code in trained if code in wanted]
    chosen = list(dict.fromkeys([*first, *by_level, *general]))[:count]
    return tuple(code for code in trained if code in chosen)
