"""A draft changed: a component or a step put in, taken out or moved; a whole recipe in, a whole out.

For the actions that change a draft. Positions of steps are always 1, 2, 3 …; whatever
names a step or a component is renumbered or let go with it. A change that would make
steps wait for one another in a ring is refused and the ring named.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

from curriculum.errors import RuleBroken
from curriculum.recipes import timing
from curriculum.recipes.data import ComponentData, LineData, RecipeData, StepData, TinData

Part = TypeVar("Part")

CODES = "ABCDEFGHIJKLMNOPQRSTUVWYZ"


def with_component(recipe: RecipeData, component: ComponentData) -> RecipeData:
    """The component in the place of the one with its code, or last. Its lines are numbered anew."""
    lines = tuple(replace(line, position=place) for place, line in enumerate(component.lines, start=1))
    new = replace(component, lines=lines)
    codes = [each.code for each in recipe.components]
    if new.code not in codes:
        return replace(recipe, components=(*recipe.components, new))
    kept = tuple(new if each.code == new.code else each for each in recipe.components)
    return replace(recipe, components=kept)


def without_component(recipe: RecipeData, code: str) -> RecipeData:
    """The recipe without that component; steps, tins and finished weights let it go."""
    return replace(
        recipe,
        components=tuple(each for each in recipe.components if each.code != code),
        steps=tuple(replace(step, components=_less(step.components, code)) for step in recipe.steps),
        tins=tuple(_tin_without(tin, code) for tin in recipe.tins),
        finished=tuple(
            replace(each, components=_less(each.components, code))
            for each in recipe.finished
            if _less(each.components, code)
        ),
    )


def with_lines(recipe: RecipeData, code: str, lines: tuple[LineData, ...]) -> RecipeData:
    """Lines added to a component, or in the place of those at their positions. KeyError without it.

    A line of position 0 is new and comes last.
    """
    component = component_of(recipe, code)
    new = {line.position: line for line in lines if line.position}
    kept = tuple(new.pop(line.position, line) for line in component.lines)
    added = tuple(line for line in lines if not line.position)
    return with_component(recipe, replace(component, lines=(*kept, *added)))


def without_line(recipe: RecipeData, code: str, position: int) -> RecipeData:
    """A component without one of its lines. KeyError without the component."""
    component = component_of(recipe, code)
    kept = tuple(line for line in component.lines if line.position != position)
    return with_component(recipe, replace(component, lines=kept))


def moved_component(recipe: RecipeData, code: str, places: int) -> RecipeData:
    """The component read so many places later (below 0: earlier), at most at an end. KeyError without it."""
    at = recipe.components.index(component_of(recipe, code))
    return replace(recipe, components=_moved(recipe.components, at, places))


def moved_line(recipe: RecipeData, code: str, position: int, places: int) -> RecipeData:
    """A line of a component read so many places later (below 0: earlier). KeyError when it is not there."""
    component = component_of(recipe, code)
    at = [line.position for line in component.lines]
    if position not in at:
        raise KeyError(position)
    return with_component(
        recipe, replace(component, lines=_moved(component.lines, at.index(position), places))
    )


def _moved(parts: tuple[Part, ...], at: int, places: int) -> tuple[Part, ...]:
    kept = list(parts)
    part = kept.pop(at)
    kept.insert(max(0, min(len(kept), at + places)), part)
    return tuple(kept)


def component_of(recipe: RecipeData, code: str) -> ComponentData:
    """The component of that code. KeyError when there is none."""
    for component in recipe.components:
        if component.code == code:
            return component
    raise KeyError(code)


def free_code(recipe: RecipeData) -> str:
    """The first letter that no component has. RuleBroken when all are taken."""
    taken = {component.code for component in recipe.components}
    for code in CODES:
        if code not in taken:
            return code
    raise RuleBroken("too_many_components", f"A recipe has at most {len(CODES)} components.")


def with_step(recipe: RecipeData, step: StepData, before: int | None = None) -> RecipeData:
    """A new step before the one at that position, or last. Its own position is not used.

    ``after`` names positions as they are before the change.
    """
    place = len(recipe.steps) + 1 if before is None else before
    moved = _renumbered(recipe.steps, lambda old: old + 1 if old >= place else old)
    new = _renumber_after(replace(step, position=place), lambda old: old + 1 if old >= place else old)
    return _demand_no_loop(replace(recipe, steps=_in_order((*moved, new))))


def changed_step(recipe: RecipeData, step: StepData) -> RecipeData:
    """The step in the place of the one at its position. KeyError when there is none."""
    recipe.step(step.position)
    kept = tuple(step if each.position == step.position else each for each in recipe.steps)
    return _demand_no_loop(replace(recipe, steps=kept))


def without_step(recipe: RecipeData, position: int) -> RecipeData:
    """The recipe without that step; what came after it comes after what it came after."""
    gone = recipe.step(position)
    kept = []
    for step in recipe.steps:
        if step.position == position:
            continue
        after = tuple(each for each in step.after if each.needs != position)
        if len(after) < len(step.after):
            known = {each.needs for each in after}
            after += tuple(each for each in gone.after if each.needs not in known)
        kept.append(replace(step, after=after))
    return replace(recipe, steps=_renumbered(tuple(kept), lambda old: old - 1 if old > position else old))


def moved_step(recipe: RecipeData, position: int, to: int) -> RecipeData:
    """The step at ``position`` read at ``to`` instead, at most at an end; what it comes after stays."""
    order = [step.position for step in recipe.steps]
    order.insert(max(0, to - 1), order.pop(order.index(position)))
    place = {old: new for new, old in enumerate(order, start=1)}
    return replace(recipe, steps=_in_order(_renumbered(recipe.steps, lambda old: place.get(old, old))))


def numbered(recipe: RecipeData) -> RecipeData:
    """The recipe with its steps numbered 1, 2, 3 … in their order."""
    place = {step.position: new for new, step in enumerate(_in_order(recipe.steps), start=1)}
    return replace(recipe, steps=_in_order(_renumbered(recipe.steps, lambda old: place.get(old, old))))


def _renumbered(steps: tuple[StepData, ...], place: Callable[[int], int]) -> tuple[StepData, ...]:
    return tuple(_renumber_after(replace(step, position=place(step.position)), place) for step in steps)


def _renumber_after(step: StepData, place: Callable[[int], int]) -> StepData:
    return replace(step, after=tuple(replace(each, needs=place(each.needs)) for each in step.after))


def _in_order(steps: tuple[StepData, ...]) -> tuple[StepData, ...]:
    return tuple(sorted(steps, key=lambda step: step.position))


def _demand_no_loop(recipe: RecipeData) -> RecipeData:
    loop = timing.loop(recipe)
    if loop:
        raise RuleBroken("steps_in_a_loop", timing.loop_words(loop), field="after")
    return recipe


def _less(codes: tuple[str, ...], code: str) -> tuple[str, ...]:
    return tuple(each for each in codes if each != code)


def _tin_without(tin: TinData, code: str) -> TinData:
    lined = None if tin.lined_with == code else tin.lined_with
    return replace(tin, lined_with=lined, filled_with=_less(tin.filled_with, code))
