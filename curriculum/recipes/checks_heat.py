"""Looked over: ovens, core temperatures, and what is filled before it has cooled.

High risk, as it is meant here: meat, poultry or fish that is heated. Which core
temperature is enough is said by the college's own limits; here it is only asked that the
recipe says one with its time.
"""

from collections.abc import Iterator

from curriculum.recipes import timing
from curriculum.recipes.data import ComponentData, RecipeData, StepData
from curriculum.recipes.finding import Finding
from curriculum.wording import listed, temperature

HEATING = frozenset(("oven", "ring", "fryer"))
HIGH_RISK_FACTS = frozenset(("meat", "fish"))
#: Stocks that are reduced and gelatine: cooked before they come (common practice, no source).
LOW_RISK_CLASSES = frozenset(("evaporating", "gelling"))
#: A mix is meant to be cold when it may be at most this warm (common practice, no source; the
#: limits of the college say what is cold enough to be kept).
COLD_MIX_DECICELSIUS = 100


def of_ovens(step: StepData) -> Iterator[Finding]:
    """An oven without its setting or kind of heat, or off before it was hot."""
    is_hot = False
    for stay in step.stays:
        was_hot, is_hot = is_hot, stay.appliance_kind == "oven"
        if not is_hot:
            continue
        if stay.door == "off_and_shut":
            if not was_hot:
                words = (
                    f"Step {step.position} begins with the oven off. Write the heat before it in one step."
                )
                yield Finding("oven_off_from_the_start", words, step=step.position)
            continue
        if stay.decicelsius is not None and stay.decicelsius <= 0:
            words = f"Step {step.position} is in an oven at {temperature(stay.decicelsius)}. Write its heat."
            yield Finding("oven_at_no_heat", words, step=step.position)
        missing = [] if stay.decicelsius is not None else ["a setting"]
        missing += [] if stay.heat else ["a kind of heat (fan or conventional)"]
        if missing:
            words = f"Step {step.position} is in the oven without {listed(missing)}. Write it at the stay."
            yield Finding("oven_without_setting", words, step=step.position)


def of_cores(recipe: RecipeData) -> Iterator[Finding]:
    """Meat, poultry or fish that is heated without a core temperature; a core without its time."""
    for component in recipe.components:
        risky = sorted(_high_risk(recipe, component))
        if not risky:
            continue
        heated = [step for step in recipe.steps if component.code in step.components and heats(step)]
        if heated and not any(step.core_decicelsius is not None for step in heated):
            words = (
                f"{component.name} ({listed(risky)}) is heated and no step says a core temperature. "
                f"Write it, with its time, at step {heated[-1].position}."
            )
            yield Finding("no_core_temperature", words, component=component.code, step=heated[-1].position)
    for step in recipe.steps:
        if step.core_decicelsius is not None and step.core_seconds is None:
            words = (
                f"Step {step.position} has a core temperature without the time it is held. Write the seconds."
            )
            yield Finding("core_without_time", words, stops=False, step=step.position)


def _high_risk(recipe: RecipeData, component: ComponentData) -> set[str]:
    foods = {food.code: food for food in recipe.foods}
    return {
        foods[line.food].name
        for line in component.lines
        if line.food in foods
        and line.enters_portion
        and foods[line.food].scaling_class not in LOW_RISK_CLASSES
        and any(name in HIGH_RISK_FACTS and said == "yes" for name, said in foods[line.food].facts)
    }


def heats(step: StepData) -> bool:
    """Whether a step is done, or its food stays, where it gets hot."""
    places = {way.at for way in step.ways} | {stay.appliance_kind for stay in step.stays}
    return bool(places & HEATING)


def filled_hot(recipe: RecipeData) -> Iterator[Finding]:
    """Mixes that must be cold and come straight after heat: no stay in the cold or on the bench, no wait."""
    if timing.loop(recipe):
        return
    steps = {step.position: step for step in recipe.steps}
    for step in recipe.steps:
        if not _is_cold_mix(step) or (step.wait_first and step.stays):
            continue
        for after in step.after:
            source = _hot_since(steps, after.needs) if after.least_minutes == 0 else None
            if source is not None:
                words = (
                    f"Step {step.position} has to be at most {temperature(step.target_high_decicelsius)} and "
                    f"comes straight after the heat of step {source}. Write a stay to cool, or the least "
                    f"minutes between them."
                )
                yield Finding("filled_hot", words, stops=False, step=step.position)


def _is_cold_mix(step: StepData) -> bool:
    of_the_place = step.target_of in {stay.appliance_kind for stay in step.stays}
    high = step.target_high_decicelsius
    return high is not None and high <= COLD_MIX_DECICELSIUS and len(step.components) > 1 and not of_the_place


def _hot_since(steps: dict[int, StepData], position: int) -> int | None:
    """The step whose heat is still in the food when that step ends; None when it has cooled."""
    step = steps.get(position)
    if step is None:
        return None
    if step.stays and not step.wait_first:
        return position if step.stays[-1].appliance_kind in HEATING else None
    if heats(step):
        return position
    if step.stays:
        return None
    hot = (_hot_since(steps, after.needs) for after in step.after if after.least_minutes == 0)
    return next((found for found in hot if found is not None), None)
