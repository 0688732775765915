"""A variant made of an ordinary recipe: lines replaced or left out, techniques lost.

Worked example: 260 g of wheat flour with an own yield becomes 260 g of a blend without it;
its purpose and place stay, what was said of the wheat (class, yield, written cups) goes.
A component that loses all its lines is left out; its steps stay, to be read again.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from curriculum.recipes import editing
from curriculum.recipes.data import FoodData, LineData, RecipeData

#: Classes that belong to the pan or the deed and not to the food.
KEPT_CLASSES = frozenset(("vessel", "minimum_mass", "frying_fat", "evaporating"))


@dataclass(frozen=True, slots=True)
class LineChange:
    """What becomes of one line: another food at a weight in milligrams; None is left out."""

    component: str
    position: int
    food: str | None
    milligrams: int | None


def changed(
    recipe: RecipeData, changes: Iterable[LineChange], lost: Iterable[str], foods: Mapping[str, FoodData]
) -> RecipeData:
    """The recipe with its lines changed, without the techniques lost. ``foods`` has the new foods."""
    gone = frozenset(lost)
    for change in sorted(changes, key=lambda each: -each.position):
        recipe = _changed(recipe, change, foods)
    for component in recipe.components:
        if not component.lines:
            recipe = editing.without_component(recipe, component.code)
    known = {food.code: food for food in recipe.foods} | dict(foods)
    codes = {line.food for component in recipe.components for line in component.lines}
    codes |= {known[code].made_from.food for code in codes if known[code].made_from is not None}
    return replace(
        recipe,
        foods=tuple(food for code, food in known.items() if code in codes),
        steps=tuple(
            replace(step, techniques=tuple(code for code in step.techniques if code not in gone))
            for step in recipe.steps
        ),
        techniques_lost=tuple(lost),
    )


def _changed(recipe: RecipeData, change: LineChange, foods: Mapping[str, FoodData]) -> RecipeData:
    if change.food is None:
        return editing.without_line(recipe, change.component, change.position)
    component = editing.component_of(recipe, change.component)
    old = next(line for line in component.lines if line.position == change.position)
    new = _replaced(old, foods[change.food], change.milligrams)
    return editing.with_lines(recipe, change.component, (new,))


def _replaced(old: LineData, food: FoodData, milligrams: int) -> LineData:
    """The line with another food; what was said of the old food alone is let go."""
    same = milligrams == old.milligrams
    kept = old.scaling_class if old.scaling_class in KEPT_CLASSES else None
    prepared = food.usable_per_mille == 1000 and food.made_from is None
    return replace(
        old,
        food=food.code,
        milligrams=milligrams,
        pieces=None,
        weight_is="prepared",
        issued="prepared" if prepared else old.issued,
        yield_per_mille=None,
        scaling_class=kept,
        least_milligrams=old.least_milligrams if same else None,
        most_milligrams=old.most_milligrams if same else None,
        held_back_milligrams=old.held_back_milligrams * milligrams // old.milligrams,
        returned_milligrams=old.returned_milligrams if same else None,
        target_milligrams=old.target_milligrams if same else None,
        written="",
    )
