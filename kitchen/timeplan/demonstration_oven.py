"""The ovens of a demonstration: what is baked for it, when, where, and where the class is in the way.

For the demonstration's page and sheet. What is worked in front of the class goes into the oven when
its hands are done. What is made before and keeps over night is baked the day before and stands in
nobody's way; the rest is baked as late as can be, so that it is finished for its stage. Each bake
takes the first oven that the class neither heats nor uses from lighting it until it comes out.

Worked example: a shell that is shown at 09:21 and baked for 14 minutes goes in at 09:07; an oven
that heats a minute for each 10 °C is lit at 08:51 for 180 °C. One that comes at 09:24 for 180 °C
finds it still hot.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from curriculum.recipes.data import RecipeData, StayData, StepData
from curriculum.wording import clock_minutes, counted_words, temperature
from kitchen.timeplan.demonstration_data import Ahead, Demonstration
from kitchen.timeplan.demonstration_steps import SWAP_MINUTES, Steps
from kitchen.timeplan.demonstration_words import FIRST_HOUR, OVER_NIGHT

#: A kitchen stands at about so many tenths of a degree (common practice, no source).
COLD = 200


@dataclass(frozen=True, slots=True)
class OvenThere:
    """An oven of the room, and when the class heats or uses it: (from, until) in minutes of the day."""

    name: str
    heat_seconds_per_10: int = 60
    busy: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class OvenUse:
    """One bake, in minutes of the day; ``ahead`` when it is made before."""

    step: int
    ahead: bool
    starts: int
    stays: tuple[StayData, ...]

    @property
    def ends(self) -> int:
        """When it comes out."""
        return self.starts + sum(stay.minutes for stay in self.stays)


@dataclass(frozen=True, slots=True)
class OvenWords:
    """One bake in words: when it goes in, what, in which oven; ``clash`` when none is free."""

    clock: str
    step: int
    words: str
    oven: str
    clash: bool = False


def oven_uses(recipe: RecipeData, plan: Demonstration, at: int) -> tuple[OvenUse, ...]:
    """What is baked for the demonstration on its day, by the clock; ``at`` is the minute it counts from."""
    steps = Steps(recipe)
    found = {use for thing in plan.ahead for use in _before(recipe, steps, thing, at)}
    for stage in plan.stages:
        step = recipe.step(stage.step)
        stays = _bake(step)
        if stays and stage.way != "stage_tray":
            hands = stage.minutes - SWAP_MINUTES * (stage.way == "swapped")
            starts = stage.starts - step.waiting_minutes if step.wait_first else stage.starts + hands
            found.add(OvenUse(stage.step, False, at + starts, stays))
    return tuple(sorted(found, key=lambda use: (use.starts, use.step)))


def oven_words(uses: Sequence[OvenUse], ovens: Sequence[OvenThere]) -> tuple[OvenWords, ...]:
    """Each bake with the oven it takes; one that finds none says so."""
    taken: dict[str, list[_Taken]] = {
        oven.name: [_Taken(since, until, None) for since, until in oven.busy] for oven in ovens
    }
    return tuple(_placed(use, ovens, taken) for use in uses)


@dataclass(frozen=True, slots=True)
class _Taken:
    """An oven is taken from lighting it until the food is out; ``heat`` is what it has then."""

    since: int
    until: int
    heat: int | None


def _bake(step: StepData) -> tuple[StayData, ...]:
    return tuple(stay for stay in step.stays if stay.appliance_kind == "oven")


def _before(recipe: RecipeData, steps: Steps, thing: Ahead, at: int) -> Iterator[OvenUse]:
    """Bakes behind a thing that does not keep over night, each as late as can be."""
    if thing.keeps_minutes is None or thing.keeps_minutes >= OVER_NIGHT:
        return
    node = steps.node_of(thing.step) - int(thing.waited_only)
    ends = {node: at + thing.needed_at - steps.nodes[node].stay}
    for each in range(node, -1, -1):
        if each not in ends:
            continue
        stays = _bake(recipe.step(steps.nodes[each].step)) if steps.nodes[each].stay else ()
        if stays and ends[each] >= FIRST_HOUR:
            yield OvenUse(steps.nodes[each].step, True, ends[each], stays)
        for edge in steps.before[each]:
            latest = ends[each] - steps.nodes[each].hands - edge.least
            ends[edge.before] = min(latest, ends.get(edge.before, latest))


def _placed(use: OvenUse, ovens: Sequence[OvenThere], taken: dict[str, list[_Taken]]) -> OvenWords:
    """The first oven that is hot already from the bake before, else the first that can be lit in time."""
    clock, words = clock_minutes(use.starts), _words(use)
    lit = [(oven, use.starts - _heat_up(oven, use.stays[0])) for oven in ovens]
    hot = [(oven, use.starts) for oven in ovens if _is_hot(use, taken[oven.name])]
    for oven, since in (*hot, *lit):
        if all(each.until <= since or each.since >= use.ends for each in taken[oven.name]):
            taken[oven.name].append(_Taken(since, use.ends, use.stays[-1].decicelsius))
            how = "still hot" if (oven, since) in hot else f"lit by {clock_minutes(since)}"
            return OvenWords(clock, use.step, words, f"{oven.name}, {how}.")
    if not ovens:
        return OvenWords(clock, use.step, words, "The room has no oven: bake it in another one.", clash=True)
    none = (
        f"None of {counted_words(len(ovens), 'oven')} is free until {clock_minutes(use.ends)}: "
        "the class or another tray has them. Bake it in another room."
    )
    return OvenWords(clock, use.step, words, none, clash=True)


def _is_hot(use: OvenUse, taken: Sequence[_Taken]) -> bool:
    """Whether the last bake of the demonstration in an oven left it at the heat that is wanted."""
    before = [each for each in taken if each.until <= use.starts]
    return bool(before) and max(before, key=lambda each: each.until).heat == use.stays[0].decicelsius


def _heat_up(oven: OvenThere, stay: StayData) -> int:
    """Minutes to heat it from cold, rounded up to whole ones."""
    tens = max(0, (stay.decicelsius or COLD) - COLD)
    return -(-tens * oven.heat_seconds_per_10 // 6000)


def _words(use: OvenUse) -> str:
    heats = ", then ".join(_stay(stay) for stay in use.stays)
    shut = ", door shut" if any(stay.door != "may_open" for stay in use.stays) else ""
    who = "made before" if use.ahead else "in front of the class"
    return f"Step {use.step}, {who}: {heats}{shut}. Out at {clock_minutes(use.ends)}."


def _stay(stay: StayData) -> str:
    if stay.door == "off_and_shut" or stay.decicelsius is None:
        return f"off for {stay.minutes} min"
    return f"{' '.join(filter(None, (temperature(stay.decicelsius), stay.heat)))} for {stay.minutes} min"
