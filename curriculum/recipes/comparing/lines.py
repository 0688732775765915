"""Lines of two versions put beside each other: which line became which.

A line goes with the line of the same food in the same component; what is left goes with
what stands for the same part of a dough or a mix (flour for flour), then with what stands
at its place: that line was replaced. What is left over is left out, or new.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from curriculum import wording
from curriculum.recipes.comparing.rows import (
    CHANGED,
    GONE,
    NEW,
    REPLACED,
    SAME,
    Row,
    Section,
    text_row,
    weight_change,
)
from curriculum.recipes.data import ComponentData, FoodData, LineData, RecipeData
from curriculum.recipes.differences import NOTHING, line_text
from curriculum.recipes.page import RecipePage
from curriculum.recipes.weigh_words import LineWords


@dataclass(frozen=True, slots=True)
class Side:
    """A line of one of the two versions, with its food and its words."""

    line: LineData
    food: FoodData
    words: LineWords

    @property
    def text(self) -> str:
        """ "260 g Soft wheat flour"."""
        return f"{line_text(self.words)} {self.food.name}".strip()


#: The row of a component as a whole.
HEAD = "The component"
Pair = tuple[Side | None, Side | None]
Key = Callable[[Side], object]
#: How a line finds its partner, in this order; an empty key finds none.
KEYS: tuple[Key, ...] = (
    lambda side: (side.food.code, side.line.part),
    lambda side: side.food.code,
    lambda side: side.food.dough_part,
    lambda side: side.line.position,
)


def sections(old: RecipeData, before: RecipePage, new: RecipeData, after: RecipePage) -> tuple[Section, ...]:
    """A section for each component, in the order of the newer version; those left out come last."""
    was, now = _sides(old, before), _sides(new, after)
    made = []
    for component in new.components:
        partner = _partner(component, old, new)
        made.append(_section(partner, was.pop(partner.code) if partner else [], component, now))
    gone = [component for component in old.components if component.code in was]
    return (*made, *(_section(component, was[component.code], None, {}) for component in gone))


def changed_lines(section: Section) -> int:
    """How many lines of a component are different; its own row is no line."""
    return sum(not row.is_same for row in section.rows if row.where != HEAD)


def pairs(old: list[Side], new: list[Side]) -> list[Pair]:
    """Which line became which, in the older order; new lines last."""
    partner: dict[int, Side] = {}
    left, free = list(old), list(new)
    for key in KEYS:
        for side in list(left):
            found = next((each for each in free if key(side) and key(each) == key(side)), None)
            if found is not None:
                partner[id(side)] = found
                left.remove(side)
                free.remove(found)
    return [*((side, partner.get(id(side))) for side in old), *((None, side) for side in free)]


def row_of(old: Side | None, new: Side | None) -> Row:
    """The row of a pair. One of them is there."""
    if old is None:
        return Row(new.food.name, NOTHING, new.text, "", NEW)
    if new is None:
        return Row(old.food.name, old.text, NOTHING, "", GONE)
    change = weight_change(old.line.milligrams, new.line.milligrams)
    if old.food.code != new.food.code:
        return Row(f"{old.food.name}, now {new.food.name}", old.text, new.text, change, REPLACED)
    is_same = replace(old.line, position=new.line.position) == new.line
    state = SAME if is_same else CHANGED
    return Row(old.food.name, line_text(old.words), line_text(new.words), change, state)


def _sides(recipe: RecipeData, page: RecipePage) -> dict[str, list[Side]]:
    return {
        component.code: [
            Side(line, recipe.food(line.food), words)
            for line, words in zip(component.lines, shown.lines, strict=True)
        ]
        for component, shown in zip(recipe.components, page.components, strict=True)
    }


def _partner(component: ComponentData, old: RecipeData, new: RecipeData) -> ComponentData | None:
    """The older component of the same code, or else of the same name if no other one has its code."""
    codes = {each.code for each in new.components}
    alike = [each for each in old.components if each.code == component.code]
    alike += [each for each in old.components if each.name == component.name and each.code not in codes]
    return alike[0] if alike else None


def _section(
    old: ComponentData | None, was: list[Side], new: ComponentData | None, now: dict[str, list[Side]]
) -> Section:
    sides = now[new.code] if new is not None else []
    rows = [_head(old, new), *(row_of(*pair) for pair in pairs(was, sides))]
    return Section((new or old).name, tuple(rows))


def _head(old: ComponentData | None, new: ComponentData | None) -> Row:
    """The component as a whole: its name, basis and weight."""
    row = text_row(HEAD, _component_text(old), _component_text(new))
    return replace(row, change=weight_change(_weight(old), _weight(new)) if old and new else "")


def _component_text(component: ComponentData | None) -> str:
    if component is None:
        return ""
    basis = component.basis.replace("_", " ")
    note = f" {component.note}" if component.note else ""
    return f"{component.name}, {wording.amount(_weight(component))}, by {basis}.{note}"


def _weight(component: ComponentData) -> int:
    return sum(line.milligrams for line in component.lines)
