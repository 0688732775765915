"""A recipe made of what a person accepted of an import, with what it carries.

For the page that saves an import as a draft. Lines stand in components by the headings of the file,
steps come one after another with no minutes yet; a step belongs to the component that its section
names, or to the only one. What the file said is carried with marks (see ``carrying``).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from curriculum.foods.data import FoodData
from curriculum.recipes.data import AfterData, ComponentData, LineData, RecipeData, StepData, WayData
from curriculum.recipes.editing import CODES
from curriculum.recipes.interchange import carrying, json_ld
from curriculum.recipes.interchange.reading import LONGEST_NAME, MOST_SECTIONS, ImportedRecipe
from curriculum.recipes.pasting.matching import Proposal
from curriculum.recipes.writing.equipment import equipment_words


@dataclass(frozen=True, slots=True)
class Accepted:
    """One line or step that a person accepted: its place in the import, and whether it was changed."""

    place: int
    changed: bool
    line: LineData | None = None
    words: str = ""


def is_changed(line: LineData, proposal: Proposal) -> bool:
    """Whether a line weighs something else than was read for its food; what was not read is no change."""
    if proposal.food != line.food:
        return False
    if proposal.pieces is not None:
        return line.pieces != proposal.pieces
    if proposal.least is not None and proposal.most is not None:
        return not proposal.least <= line.milligrams <= proposal.most
    return proposal.milligrams is not None and line.milligrams != proposal.milligrams


def measured(recipe: RecipeData, system: str) -> RecipeData:
    """The recipe, written in that system of measures."""
    return replace(recipe, measures=system)


def draft_of(
    imported: ImportedRecipe,
    head: RecipeData,
    lines: Iterable[Accepted],
    steps: Iterable[Accepted],
    foods: Mapping[str, FoodData],
) -> RecipeData:
    """The recipe: ``head`` (title, portions, equipment, notes) with what was accepted."""
    lines, steps = tuple(lines), tuple(steps)
    used = dict.fromkeys(each.line.food for each in lines if each.line is not None)
    made = replace(
        head,
        components=_components(imported, head.title, lines),
        foods=tuple(foods[code] for code in used if code in foods),
    )
    made = replace(made, steps=_steps(imported, made, steps))
    return replace(made, carried=_carried(imported, made, lines, steps)) if imported.carried else made


def _components(
    imported: ImportedRecipe, title: str, lines: tuple[Accepted, ...]
) -> tuple[ComponentData, ...]:
    sections: dict[str, list[LineData]] = {}
    for each in lines:
        if each.line is not None:
            name = imported.lines[each.place].section or title
            name = name if name in sections or len(sections) < MOST_SECTIONS else list(sections)[-1]
            sections.setdefault(name, []).append(each.line)
    return tuple(
        ComponentData(
            CODES[place],
            name[:LONGEST_NAME],
            "portions",
            tuple(replace(line, position=number) for number, line in enumerate(found, start=1)),
        )
        for place, (name, found) in enumerate(sections.items())
    )


def _steps(imported: ImportedRecipe, recipe: RecipeData, steps: tuple[Accepted, ...]) -> tuple[StepData, ...]:
    by_name = {component.name.casefold(): component.code for component in recipe.components}
    only = (recipe.components[0].code,) if len(recipe.components) == 1 else ()
    made = []
    for position, each in enumerate(steps, start=1):
        code = by_name.get(imported.steps[each.place].section.casefold())
        after = (AfterData(position - 1),) if position > 1 else ()
        ways = (WayData("hand", 0),)
        made.append(StepData(position, each.words, ways, after=after, components=(code,) if code else only))
    return tuple(made)


def _carried(
    imported: ImportedRecipe, recipe: RecipeData, lines: tuple[Accepted, ...], steps: tuple[Accepted, ...]
) -> tuple[tuple[str, str], ...]:
    """What the file said, without what a person changed, and the marks."""
    now = carrying.marks_of(recipe, json_ld.own_words(recipe))
    same = {
        "name": recipe.title == imported.title,
        "recipeYield": imported.portions in (None, recipe.portions_stated) and recipe.unit == imported.unit,
        "recipeIngredient": _all_kept(lines, len(imported.lines)),
        "recipeInstructions": _all_kept(steps, len(imported.steps)),
        "tool": _things(equipment_words(recipe.equipment)) == _things("\n".join(imported.tools)),
    }
    whole = {name: mark for name, mark in now.items() if same.get(name, True)}
    each = {
        "recipeIngredient": _originals(carrying.line_marks(recipe), lines, imported.line_values),
        "recipeInstructions": _originals(carrying.step_marks(recipe), steps, imported.step_values),
    }
    kept = [(name, text) for name, text in imported.carried if same.get(name, True)]
    return (*kept, carrying.write_marks(carrying.Marks(whole, each)))


def _all_kept(accepted: tuple[Accepted, ...], count: int) -> bool:
    return [each.place for each in accepted if not each.changed] == list(range(count))


def _originals(marks: list[str], accepted: tuple[Accepted, ...], values: tuple[str, ...]) -> dict[str, str]:
    """Original JSON text by mark, of what stands as it came. Lines stand in the order of the recipe."""
    return {
        mark: values[each.place]
        for mark, each in zip(marks, accepted, strict=True)
        if not each.changed and each.place < len(values) and values[each.place]
    }


def _things(text: str) -> list[str]:
    return ["".join(letter for letter in line.casefold() if letter.isalnum()) for line in text.splitlines()]
