"""The stage trays of a demonstration in words: what stands on which, when it comes out of the cold.

For the demonstration's page, its sheet and the labels that stick on the trays. Trays are numbered
as the stores number the kits they are made from: T1, T2, …; one alone is T.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from curriculum import wording
from curriculum.allergens import KINDS, printed
from curriculum.recipes.data import RecipeData
from kitchen.timeplan.demonstration_clock import OnTheClock
from kitchen.timeplan.demonstration_data import Ahead
from kitchen.timeplan.demonstration_words import ahead_words, keeps_words

#: Minutes before its stage at which a chilled tray is carried to the table. Common practice, no source.
OUT_OF_THE_COLD = 5


@dataclass(frozen=True, slots=True)
class TrayWords:
    """One stage tray: its plate, what stands on it, where it waits, when it is wanted, how it is made."""

    plate: str
    title: str
    stands: str
    components: str
    use: str
    out: str
    keeps: str
    when: str
    minutes: int
    shared: str
    allergens: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()


def trays_of(recipe: RecipeData, clock: OnTheClock) -> tuple[TrayWords, ...]:
    """The trays in the order in which they are made: what stands behind others first."""
    names = {each.code: each.name for each in recipe.components}
    many = len(clock.plan.ahead) > 1
    return tuple(
        _tray(recipe, clock, thing, f"T{number}" if many else "T", names)
        for number, thing in enumerate(clock.plan.ahead, start=1)
    )


def plates_by_step(clock: OnTheClock) -> dict[int, str]:
    """The plate of the tray that is made as far as each step; the last where there are two."""
    many = len(clock.plan.ahead) > 1
    return {
        thing.step: f"T{number}" if many else "T" for number, thing in enumerate(clock.plan.ahead, start=1)
    }


def _tray(
    recipe: RecipeData, clock: OnTheClock, thing: Ahead, plate: str, names: Mapping[str, str]
) -> TrayWords:
    step = recipe.step(thing.step)
    words = ahead_words(thing, None if clock.is_open else clock.at, names)
    shared = thing.hands_minutes - thing.own_minutes
    return TrayWords(
        plate=plate,
        title=words.title,
        stands=f"Before its hands: {step.words}" if thing.waited_only else step.words,
        components=words.components,
        use=words.use,
        out=_out(step.kept, thing, clock),
        keeps=keeps_words(thing.keeps_minutes),
        when=words.when,
        minutes=thing.own_minutes,
        shared=f"{wording.duration(shared)} of it are worked together with the trays above."
        if shared
        else "",
        allergens=_kinds(recipe, thing, "contains"),
        may_contain=_kinds(recipe, thing, "may_contain"),
    )


def _out(kept: str, thing: Ahead, clock: OnTheClock) -> str:
    """When it leaves the place where it waits."""
    if kept == "chilled":
        if clock.is_open:
            return f"Out of the cold {OUT_OF_THE_COLD} min before it is wanted."
        return f"Out of the cold at {wording.clock_minutes(clock.at + thing.needed_at - OUT_OF_THE_COLD)}."
    if kept == "hot":
        return "Kept hot until it is wanted."
    return "Stands covered on the bench."


def _kinds(recipe: RecipeData, thing: Ahead, which: str) -> tuple[str, ...]:
    """Allergens of its components as a label prints them, in the order of the law's list."""
    lines = [line for each in recipe.components if each.code in thing.components for line in each.lines]
    there = {kind for line in lines for kind in getattr(recipe.food(line.food), which)}
    return tuple(printed(kind) for kind in KINDS if kind in there)
