"""What is looked over before a version is checked by a second person.

For the writing page and for the action that checks. A finding either *stops* (a lesson
could not be planned from this version) or is only *to look at*. A finding says what is
wrong and what would mend it; it never says that a dish is in order.

Its parts: this file (is it whole), ``checks_heat``, ``checks_care`` (cautions, raw egg),
``checks_without`` (what it is said to be made without) and ``checks_teaching`` (what techniques need
first, the time of a lesson).
"""

from collections.abc import Iterator

from curriculum.recipes import checks_care, checks_heat, checks_teaching, checks_without, portions, timing
from curriculum.recipes.data import ComponentData, RecipeData
from curriculum.recipes.finding import Finding, Teaching
from curriculum.recipes.portion_minutes import portions_take_more
from curriculum.wording import listed

NOTHING_KNOWN = Teaching()


def findings(recipe: RecipeData, teaching: Teaching = NOTHING_KNOWN) -> tuple[Finding, ...]:
    """Everything found, what stops first, in the order of the recipe.

    What techniques need first and the time of a lesson are looked at as far as ``teaching`` says.
    """
    found = [*_head(recipe), *_components(recipe), *_steps(recipe), *_order(recipe)]
    found += [*checks_heat.of_cores(recipe), *checks_heat.filled_hot(recipe)]
    found += [*checks_care.without_caution(recipe), *checks_care.raw_egg(recipe)]
    found += checks_without.claims(recipe)
    found += checks_teaching.of_techniques(recipe, teaching.techniques)
    found += checks_teaching.longer_than_a_lesson(recipe, teaching.cooking_minutes)
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
                "tin_of_no_component",
                f"A tin is filled with component {code}, which is not there. Name another.",
            )


def _is_over_issue(component: ComponentData) -> bool:
    return component.basis == "fixed" or all(line.part == "over_issue" for line in component.lines)


def _steps(recipe: RecipeData) -> Iterator[Finding]:
    codes = {component.code for component in recipe.components}
    for step in recipe.steps:
        if not step.ways:
            yield Finding(
                "step_without_way",
                f"Step {step.position} says no way to do it. Write its minutes.",
                step=step.position,
            )
            continue
        if step.active_minutes == 0 and step.waiting_minutes == 0:
            words = f"Step {step.position} takes no work and no waiting. Give it its minutes."
            yield Finding("step_takes_no_time", words, step=step.position)
        for code in sorted(set(step.components) - codes):
            words = (
                f"Step {step.position} uses component {code}, which is not there. Take it out of the step."
            )
            yield Finding("step_of_no_component", words, step=step.position)
        if any(portions_take_more(way, recipe.portions_stated) for way in step.ways):
            words = f"Step {step.position} takes more for its portions than in all. Write fewer seconds each."
            yield Finding("portions_take_more_than_the_step", words, step=step.position)
        yield from checks_heat.of_ovens(step)
        if not step.cue:
            words = f"Step {step.position} has no cue. Say what the learner looks for."
            yield Finding("step_without_cue", words, stops=False, step=step.position)


def _order(recipe: RecipeData) -> Iterator[Finding]:
    positions = {step.position for step in recipe.steps}
    for step in recipe.steps:
        for after in step.after:
            if after.needs not in positions:
                words = (
                    f"Step {step.position} comes after step {after.needs}, which is not there. "
                    f"Choose what it comes after."
                )
                yield Finding("step_after_nothing", words, step=step.position)
    yield from _begun_too_early(recipe)
    loop = timing.loop(recipe)
    if loop:
        yield Finding("steps_in_a_loop", timing.loop_words(loop), step=loop[0])


def _begun_too_early(recipe: RecipeData) -> Iterator[Finding]:
    """Steps that come after nothing, though an earlier one works on the same component: baked unmixed."""
    for place, step in enumerate(recipe.steps):
        earlier = [each for each in recipe.steps[:place] if set(each.components) & set(step.components)]
        if step.after or not earlier:
            continue
        shared = set(earlier[-1].components) & set(step.components)
        names = listed(each.name for each in recipe.components if each.code in shared)
        words = (
            f"Step {step.position} works with {names}, as step {earlier[-1].position} does, and comes after "
            f"nothing, so it may be planned first. Choose what it comes after, if it waits for that step."
        )
        yield Finding("step_may_come_first", words, stops=False, step=step.position)
