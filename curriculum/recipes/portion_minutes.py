"""Minutes of hands for so many portions: piping twelve takes longer than piping eight.

For the time plan and the sheet of a bench. A way says which part of its minutes each portion
takes (``WayData.portion_seconds``); the rest is the same for every number. Whole minutes,
rounded up once, and never less than one where there is work at all.

Worked example: dipping twelve éclairs takes 12 minutes, 40 seconds each. Eight take
12 x 60 - 4 x 40 = 560 seconds: 10 minutes. Sixteen take 720 + 160 = 880 seconds: 15 minutes.
"""

from dataclasses import replace

from curriculum.recipes.data import RecipeData, StepData, WayData


def minutes_for(way: WayData, portions: int, stated: int) -> int:
    """Whole minutes at work for ``portions`` where the way's minutes are those of ``stated``."""
    if not way.portion_seconds or portions == stated:
        return way.active_minutes
    seconds = 60 * way.active_minutes + way.portion_seconds * (portions - stated)
    return max(1, -(-seconds // 60))


def portions_take_more(way: WayData, stated: int) -> bool:
    """Whether the portions alone would take more than the way takes in all."""
    return way.portion_seconds * stated > 60 * way.active_minutes


def steps_for(recipe: RecipeData, portions: int | None) -> tuple[StepData, ...]:
    """The steps with their minutes at work for so many portions; None: as stated."""
    stated = recipe.portions_stated
    if portions is None or portions == stated:
        return recipe.steps
    return tuple(_step_for(step, portions, stated) for step in recipe.steps)


def _step_for(step: StepData, portions: int, stated: int) -> StepData:
    if not any(way.portion_seconds for way in step.ways):
        return step
    ways = (replace(way, active_minutes=minutes_for(way, portions, stated)) for way in step.ways)
    return replace(step, ways=tuple(ways))
