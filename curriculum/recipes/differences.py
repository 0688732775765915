"""What is different between two versions of a recipe, line by line, in words.

For the second person who checks a revision, and for whoever taught the older one. Lines
are compared by their food within their component, steps by their words, so that a step
put in between others is one difference and not ten.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from difflib import SequenceMatcher

from curriculum.recipes.data import RecipeData
from curriculum.recipes.page import page_of
from curriculum.recipes.step_words import StepWords
from curriculum.recipes.weigh_words import ComponentWords, LineWords

#: Shown where something is only in one of the two.
NOTHING = "not there"


@dataclass(frozen=True, slots=True)
class Difference:
    """One difference: where it is, what it was, what it is now."""

    where: str
    before: str
    after: str


def differences(old: RecipeData, new: RecipeData) -> tuple[Difference, ...]:
    """Everything that differs, in the order of the newer version; the number of the version is not said."""
    before, after = page_of(old, {}, {}), page_of(replace(new, number=old.number), {}, {})
    found = [
        Difference(where, str(getattr(before, name)), str(getattr(after, name)))
        for where, name in (("Name", "title"), ("Portions", "facts"), ("Notes", "notes"))
        if getattr(before, name) != getattr(after, name)
    ]
    found += _lists("Equipment", before.equipment, after.equipment)
    found += _lists("Tins", before.tins, after.tins)
    alike = page_of(numbered_as(old, new), {}, {}).steps
    steps = _steps(before.steps, after.steps, {step.position: step_text(step) for step in alike})
    return (*found, *_components(before.components, after.components), *steps)


def numbered_as(old: RecipeData, new: RecipeData) -> RecipeData:
    """The newer recipe with what its steps come after named by the older numbers, for comparing only."""
    place = {step.position: -step.position for step in new.steps}
    for kind, a, b, c, d in match([s.words for s in old.steps], [s.words for s in new.steps]):
        if kind in ("equal", "replace"):
            place |= {new.steps[c + n].position: old.steps[a + n].position for n in range(min(b - a, d - c))}
    steps = tuple(
        replace(step, after=tuple(replace(each, needs=place.get(each.needs, 0)) for each in step.after))
        for step in new.steps
    )
    return replace(new, steps=steps)


def match(before: list[str], after: list[str]) -> list[tuple[str, int, int, int, int]]:
    """What became of a list of texts: (kind, from, to, from, to), as difflib names the kinds."""
    return SequenceMatcher(None, before, after, False).get_opcodes()


def _lists(where: str, before: tuple[str, ...], after: tuple[str, ...]) -> Iterator[Difference]:
    gone = ", ".join(each for each in before if each not in after)
    new = ", ".join(each for each in after if each not in before)
    if gone or new:
        yield Difference(where, gone or NOTHING, new or NOTHING)


def _components(
    before: tuple[ComponentWords, ...], after: tuple[ComponentWords, ...]
) -> Iterator[Difference]:
    old = {each.code: each for each in before}
    for component in after:
        was = old.pop(component.code, None)
        if was is None:
            yield Difference(component.name, NOTHING, _line_list(component))
            continue
        if (was.name, was.basis) != (component.name, component.basis):
            yield Difference(
                component.name, f"{was.name}, {was.basis}", f"{component.name}, {component.basis}"
            )
        yield from _lines(component.name, was.lines, component.lines)
    for gone in old.values():
        yield Difference(gone.name, _line_list(gone), NOTHING)


def _lines(where: str, before: tuple[LineWords, ...], after: tuple[LineWords, ...]) -> Iterator[Difference]:
    old = [(line.food, line_text(line)) for line in before]
    for line in after:
        was = next((pair for pair in old if pair[0] == line.food), None)
        if was is not None:
            old.remove(was)
        if was is None or was[1] != line_text(line):
            yield Difference(f"{where}, {line.food}", NOTHING if was is None else was[1], line_text(line))
    for food, words in old:
        yield Difference(f"{where}, {food}", words, NOTHING)


def line_text(line: LineWords) -> str:
    """A line without its food: "260 g As bought."."""
    return " ".join([f"{line.figure} {line.unit}".strip(), *line.points])


def _line_list(component: ComponentWords) -> str:
    return ", ".join(f"{line_text(line)} {line.food}" for line in component.lines) or "no line"


def _steps(
    before: tuple[StepWords, ...], after: tuple[StepWords, ...], alike: dict[int, str]
) -> Iterator[Difference]:
    """``alike`` is each newer step as it reads with the older numbers."""
    for kind, a, b, c, d in match([each.words for each in before], [each.words for each in after]):
        for place in range(max(b - a, d - c)):
            was = before[a + place] if a + place < b else None
            now = after[c + place] if c + place < d else None
            if kind == "equal" and step_text(was) == alike[now.position]:
                continue
            where = f"Step {now.position}" if now else f"Step {was.position} of before"
            yield Difference(where, step_text(was), step_text(now))


def step_text(step: StepWords | None) -> str:
    """A step as one text; "not there" for none."""
    if step is None:
        return NOTHING
    said = [step.words, step.cue and f"Look for: {step.cue}", step.meta, *step.points, step.caution]
    return " ".join(part for part in said if part)
