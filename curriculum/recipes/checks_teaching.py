"""Looked over: what its techniques need first, their level, and the time of a lesson.

A technique that needs another one first is in order when the recipe trains that one too, or
when that one is of a level below the recipe's: then it was learnt before. One cook's time is
set beside the cooking minutes of a usual lesson; steps that may be done ahead are left out
before a recipe is called too long.

Worked example: a bavarois takes one cook 200 min, also with its biscuit and fruit done
ahead, for it sets. A usual lesson of 240 min has 195 to cook.
"""

from collections.abc import Iterator, Mapping

from curriculum.recipes import timing
from curriculum.recipes.data import RecipeData
from curriculum.recipes.finding import Finding
from curriculum.techniques.entries import TechniqueEntry
from curriculum.wording import duration, listed

#: From the easiest on.
LEVELS = ("foundation", "intermediate", "advanced")


def of_techniques(recipe: RecipeData, known: Mapping[str, TechniqueEntry]) -> Iterator[Finding]:
    """Techniques above the recipe's level, and those whose prerequisites were learnt nowhere."""
    trained = {code for step in recipe.steps for code in step.techniques}
    seen: set[str] = set()
    for step in recipe.steps:
        for code in step.techniques:
            technique = known.get(code)
            if technique is None or code in seen:
                continue
            seen.add(code)
            yield from _above(recipe, technique, step.position)
            yield from _unlearnt(recipe, technique, trained, known, step.position)


def _above(recipe: RecipeData, technique: TechniqueEntry, position: int) -> Iterator[Finding]:
    if LEVELS.index(technique.level) > LEVELS.index(recipe.level):
        words = (
            f"{technique.name} at step {position} is {technique.level}; the recipe is {recipe.level}. "
            f"Raise the level of the recipe, or do that step in an easier way."
        )
        yield Finding("technique_above_level", words, stops=False, step=position)


def _unlearnt(
    recipe: RecipeData,
    technique: TechniqueEntry,
    trained: set[str],
    known: Mapping[str, TechniqueEntry],
    position: int,
) -> Iterator[Finding]:
    level = LEVELS.index(recipe.level)
    needs = [known[code] for code in technique.needs if code in known and code not in trained]
    missing = [each.name for each in needs if LEVELS.index(each.level) >= level]
    if missing:
        words = (
            f"{technique.name} at step {position} needs {listed(missing)} first, which this recipe does not "
            f"train and which is not of an easier level. Name it at the step that shows it, or plan a "
            f"recipe before this one that trains it."
        )
        yield Finding("prerequisite_not_trained", words, stops=False, step=position)


def longer_than_a_lesson(recipe: RecipeData, cooking_minutes: int | None) -> Iterator[Finding]:
    """One cook's time beyond a usual lesson, also when all that may be is done ahead."""
    if cooking_minutes is None or not recipe.steps or not all(step.ways for step in recipe.steps):
        return
    if timing.loop(recipe):
        return
    ahead = [step.position for step in recipe.steps if step.ahead_possible]
    minutes = timing.one_cook(recipe, frozenset(ahead)).minutes
    if minutes > cooking_minutes:
        said = f", also when {_steps(ahead)} done ahead" if ahead else ""
        words = (
            f"One cook needs {duration(minutes)}{said}; a usual lesson has {duration(cooking_minutes)} "
            f"to cook. Say of more steps that they may be done ahead, or teach it over two lessons."
        )
        yield Finding("longer_than_a_lesson", words, stops=False)


def _steps(positions: list[int]) -> str:
    several = len(positions) > 1
    return f"{'steps' if several else 'step'} {listed(map(str, positions))} {'are' if several else 'is'}"
