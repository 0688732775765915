"""What is looked over before a version is checked by a second person.

For the writing page and for the action that checks. A finding either *stops* (a lesson
could not be planned from this version) or is only *to look at*. A finding says what is
wrong and what would mend it; it never says that a dish is in order.

High risk, as it is meant here: meat, poultry or fish that is heated. Which core
temperature is enough is said by the college's own limits; here it is only asked that the
recipe says one with its time.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from curriculum.recipes import portions, timing
from curriculum.recipes.data import ComponentData, RecipeData, StepData
from curriculum.wording import listed, temperature

HEATING = frozenset(("oven", "ring", "fryer"))
HIGH_RISK_FACTS = frozenset(("meat", "fish"))
#: Stocks that are reduced and gelatine: cooked before they come (common practice, no source).
LOW_RISK_CLASSES = frozenset(("evaporating", "gelling"))
#: A mix is meant to be cold when it may be at most this warm (common practice, no source; the
#: limits of the college say what is cold enough to be kept).
COLD_MIX_DECICELSIUS = 100
#: Work that has a caution at its step (trade: local risk assessment decides what it says).
RISKY_PLACES = {"torch_station": "a blowtorch", "fryer": "hot oil"}
RISKY_TECHNIQUES = {"blowtorch_glaze": "a blowtorch", "sugar_syrup": "hot sugar", "caramel": "hot sugar"}


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found. ``component`` or ``step`` say where; ``stops`` whether it must be mended."""

    code: str
    words: str
    stops: bool = True
    component: str = ""
    step: int | None = None


def findings(recipe: RecipeData) -> tuple[Finding, ...]:
    """Everything found, what stops first, in the order of the recipe."""
    found = [*_head(recipe), *_components(recipe), *_steps(recipe), *_order(recipe), *_risk(recipe)]
    found += [*_filled_hot(recipe), *_cautions(recipe)]
    return tuple(sorted(found, key=lambda finding: not finding.stops))


def stopping(recipe: RecipeData) -> tuple[Finding, ...]:
    """Only what must be mended before a version may be checked."""
    return tuple(finding for finding in findings(recipe) if finding.stops)


def _head(recipe: RecipeData) -> Iterator[Finding]:
    if recipe.portions_stated < 1 or recipe.portions_obtainable < 1:
        yield Finding(
            "no_portions", "It makes no portions. Say how many are stated and how many are obtained."
        )
    had = portions.to_be_had(recipe)
    if had is not None and recipe.portions_obtainable > had:
        words = (
            f"It says that {recipe.portions_obtainable} portions are to be had; its finished weights, "
            f"less the rejects, give {had}. Mend one or the other."
        )
        yield Finding("more_portions_than_it_weighs", words, stops=False)
    if not recipe.components:
        yield Finding("no_components", "It has no component. Add the first one with its lines.")
    if not recipe.steps:
        yield Finding("no_steps", "It has no step. Add the first one.")


def _components(recipe: RecipeData) -> Iterator[Finding]:
    used = {code for step in recipe.steps for code in step.components}
    for component in recipe.components:
        if not component.lines:
            yield Finding(
                "component_without_lines",
                f"{component.name} has no line. Add its foods, or take the component out.",
                component=component.code,
            )
        elif component.code not in used and not _is_over_issue(component):
            yield Finding(
                "component_no_step_uses",
                f"No step uses {component.name}. Name it in the step that makes it.",
                component=component.code,
            )
    if recipe.tins:
        yield from _tins(recipe)


def _tins(recipe: RecipeData) -> Iterator[Finding]:
    codes = {component.code for component in recipe.components}
    for tin in recipe.tins:
        named = {*tin.filled_with, *((tin.lined_with,) if tin.lined_with else ())}
        for code in sorted(named - codes):
            yield Finding(
                "tin_of_no_component", f"A tin is filled with component {code}, which is not there."
            )


def _is_over_issue(component: ComponentData) -> bool:
    return component.basis == "fixed" or all(line.part == "over_issue" for line in component.lines)


def _steps(recipe: RecipeData) -> Iterator[Finding]:
    codes = {component.code for component in recipe.components}
    for step in recipe.steps:
        if not step.ways:
            yield Finding(
                "step_without_way", f"Step {step.position} says no way to do it.", step=step.position
            )
            continue
        if step.active_minutes == 0 and step.waiting_minutes == 0:
            words = f"Step {step.position} takes no work and no waiting. Give it its minutes."
            yield Finding("step_takes_no_time", words, step=step.position)
        for code in sorted(set(step.components) - codes):
            words = f"Step {step.position} uses component {code}, which is not there."
            yield Finding("step_of_no_component", words, step=step.position)
        yield from _ovens(step)
        if not step.cue:
            words = f"Step {step.position} has no cue. Say what the learner looks for."
            yield Finding("step_without_cue", words, stops=False, step=step.position)


def _ovens(step: StepData) -> Iterator[Finding]:
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


def _order(recipe: RecipeData) -> Iterator[Finding]:
    positions = {step.position for step in recipe.steps}
    for step in recipe.steps:
        for after in step.after:
            if after.needs not in positions:
                words = f"Step {step.position} comes after step {after.needs}, which is not there."
                yield Finding("step_after_nothing", words, step=step.position)
    loop = timing.loop(recipe)
    if loop:
        yield Finding("steps_in_a_loop", timing.loop_words(loop), step=loop[0])


def _risk(recipe: RecipeData) -> Iterator[Finding]:
    for component in recipe.components:
        risky = sorted(_high_risk(recipe, component))
        if not risky:
            continue
        heated = [step for step in recipe.steps if component.code in step.components and _heats(step)]
        if heated and not any(step.core_decicelsius is not None for step in heated):
            words = (
                f"{component.name} ({listed(risky)}) is heated and no step says a core temperature. "
                f"Write it, with its time, at step {heated[-1].position}."
            )
            yield Finding("no_core_temperature", words, component=component.code, step=heated[-1].position)
    for step in recipe.steps:
        if step.core_decicelsius is not None and step.core_seconds is None:
            words = f"Step {step.position} has a core temperature without the time it is held."
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


def _heats(step: StepData) -> bool:
    places = {way.at for way in step.ways} | {stay.appliance_kind for stay in step.stays}
    return bool(places & HEATING)


def _filled_hot(recipe: RecipeData) -> Iterator[Finding]:
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
    if _heats(step):
        return position
    if step.stays:
        return None
    hot = (_hot_since(steps, after.needs) for after in step.after if after.least_minutes == 0)
    return next((found for found in hot if found is not None), None)


def _cautions(recipe: RecipeData) -> Iterator[Finding]:
    for step in recipe.steps:
        if step.caution or recipe.caution:
            continue
        places = {way.at for way in step.ways} | {stay.appliance_kind or "bench" for stay in step.stays}
        risks = {RISKY_PLACES[place] for place in places if place in RISKY_PLACES}
        risks |= {RISKY_TECHNIQUES[code] for code in step.techniques if code in RISKY_TECHNIQUES}
        if risks:
            words = (
                f"Step {step.position} works with {listed(sorted(risks))} and has no caution. Write it, "
                f"as the college’s own risk assessment says it."
            )
            yield Finding("no_caution", words, stops=False, step=step.position)
