"""What a file said stays as it was said while the recipe still says the same.

For lossless recipes in and out. At import the recipe keeps, of every property of the file, the
original JSON text, and beside it a mark of what the recipe itself said at that moment. On the way
out the original goes out while the mark still holds; what was changed since goes out in the
recipe's own words. Lines and steps are marked one by one, so that a change of one keeps the rest.

Worked example: "1 cup flour" was read as 125 g of Soft wheat flour. While that line is 125 g of it,
"1 cup flour" goes out; when it becomes 130 g, "130 g Soft wheat flour" does.

The marks are the carried entry without a name: {"shape": 1, "whole": {name: mark}, "each": {name:
{mark: original}}}. A recipe that was not brought in has none, and says everything itself.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

from curriculum.recipes.data import RecipeData

MARKS = ""
#: Said of the whole dish by somebody else: true of no other lines.
OF_THE_LINES = ("suitableForDiet", "nutrition")
#: What a file may leave out and the recipe always says.
ALWAYS = frozenset(("@context", "@type", "name", "recipeYield"))
_NOTHING = object()


@dataclass(frozen=True, slots=True)
class Marks:
    """What the recipe said when it was brought in: by property, and one by one."""

    whole: Mapping[str, str] = field(default_factory=dict)
    each: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


def marks_of(recipe: RecipeData, own: Mapping[str, object]) -> dict[str, str]:
    """What the recipe says of each property, as text to compare."""
    said = {name: json.dumps(value, sort_keys=True) for name, value in own.items()}
    said["recipeIngredient"] = json.dumps(line_marks(recipe))
    said["recipeInstructions"] = json.dumps(step_marks(recipe))
    return said


def line_marks(recipe: RecipeData) -> list[str]:
    """One mark a line, in order: its food, weight, pieces, words and note."""
    return [
        f"{line.food}/{line.milligrams}/{line.pieces}/{line.written}/{line.note}"
        for component in recipe.components
        for line in component.lines
    ]


def step_marks(recipe: RecipeData) -> list[str]:
    """One mark a step: its words."""
    return [step.words for step in recipe.steps]


def write_marks(marks: Marks) -> tuple[str, str]:
    """The carried entry of the marks."""
    kept = {"shape": 1, "whole": dict(marks.whole), "each": {name: dict(m) for name, m in marks.each.items()}}
    return MARKS, json.dumps(kept, ensure_ascii=False)


def read_marks(carried: Mapping[str, str]) -> Marks | None:
    """The marks among what is carried; None when there are none that can be read."""
    found = _value(carried.get(MARKS, ""))
    if not isinstance(found, dict) or found.get("shape") != 1:
        return None
    whole, each = found.get("whole"), found.get("each")
    if not isinstance(whole, dict) or not isinstance(each, dict):
        return None
    return Marks(whole, {name: one for name, one in each.items() if isinstance(one, dict)})


def with_originals(recipe: RecipeData, own: dict[str, object]) -> dict[str, object]:
    """``own`` with what was carried: an original where nothing changed, else the recipe's own words."""
    carried = dict(recipe.carried)
    marks = read_marks(carried)
    found = {name: _value(text) for name, text in carried.items() if name}
    originals = {name: value for name, value in found.items() if value is not _NOTHING}
    if marks is None:
        return originals | own
    now = marks_of(recipe, own)
    said = {name: _one_by_one(recipe, name, value, marks) for name, value in own.items()}
    for name, mark in marks.whole.items():
        if now.get(name, "") == mark and (name in originals or name not in ALWAYS):
            said.pop(name, None)
        elif name in originals:
            del originals[name]
    if now["recipeIngredient"] != marks.whole.get("recipeIngredient"):
        originals = {name: value for name, value in originals.items() if name not in OF_THE_LINES}
    return originals | said


def _one_by_one(recipe: RecipeData, name: str, value: object, marks: Marks) -> object:
    """A list of lines or steps, with the original of each one that stands unchanged."""
    originals = marks.each.get(name)
    if originals is None or not isinstance(value, list):
        return value
    now = line_marks(recipe) if name == "recipeIngredient" else step_marks(recipe)
    found = [_value(originals.get(mark)) for mark in now]
    return [own if was is _NOTHING else was for own, was in zip(value, found, strict=True)]


def _value(text: object) -> object:
    """The value of a JSON text; _NOTHING when it is none."""
    try:
        return json.loads(text) if isinstance(text, str) else _NOTHING
    except (ValueError, RecursionError):
        return _NOTHING
