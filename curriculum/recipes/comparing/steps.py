"""Steps of two versions put beside each other: deed, minutes, temperatures, order."""

from curriculum.recipes.comparing.rows import CHANGED, GONE, NEW, SAME, Row, Section, minutes_change
from curriculum.recipes.data import RecipeData, StayData, StepData
from curriculum.recipes.differences import match, numbered_as, step_text
from curriculum.recipes.page import RecipePage, page_of
from curriculum.recipes.step_words import StepWords

#: What a step may be different in: the word, and the fields of StepData that say it.
ASPECTS = {
    "words": ("words",),
    "cue": ("cue",),
    "caution": ("caution",),
    "temperature": (
        "core_decicelsius",
        "core_most_decicelsius",
        "core_seconds",
        "target_low_decicelsius",
        "target_high_decicelsius",
        "target_of",
    ),
    "techniques": ("techniques",),
    "components": ("components",),
    "order": ("after", "wait_first"),
    "who watches": ("supervised", "shown_first", "checked_by_lecturer"),
    "where it waits": ("kept", "ahead_possible"),
}


def section(old: RecipeData, before: RecipePage, new: RecipeData, after: RecipePage) -> Section:
    """A row for each step, in the order of the method; those left out stand where they stood."""
    rows: list[Row] = []
    renumbered = numbered_as(old, new)
    shown = {step.position: step for step in page_of(renumbered, {}, {}).steps}
    for _, a, b, c, d in match([each.words for each in old.steps], [each.words for each in new.steps]):
        for place in range(max(b - a, d - c)):
            was = a + place if a + place < b else None
            now = c + place if c + place < d else None
            rows.append(
                _row(
                    None if was is None else (old.steps[was], before.steps[was]),
                    None if now is None else (renumbered.steps[now], after.steps[now]),
                    None if now is None else shown[new.steps[now].position],
                )
            )
    return Section("Steps", tuple(rows))


def aspects(old: StepData, new: StepData) -> list[str]:
    """In what two steps are different: "words", "minutes: 5 min more", "temperature"."""
    said = [
        word
        for word, fields in ASPECTS.items()
        if any(getattr(old, name) != getattr(new, name) for name in fields)
    ]
    if [stay.decicelsius for stay in old.stays] != [stay.decicelsius for stay in new.stays]:
        said += [] if "temperature" in said else ["temperature"]
    if [_place(stay) for stay in old.stays] != [_place(stay) for stay in new.stays]:
        said.append("where the food stays")
    work = minutes_change(_work(old), _work(new))
    waiting = minutes_change(old.waiting_minutes, new.waiting_minutes)
    said += [f"work: {work}"] if work else []
    said += [f"waiting: {waiting}"] if waiting else []
    if not work and old.ways != new.ways:
        said.append("ways to do it")
    return said


def _row(
    old: tuple[StepData, StepWords] | None, new: tuple[StepData, StepWords] | None, alike: StepWords | None
) -> Row:
    if old is None:
        return Row(f"Step {new[0].position}", step_text(None), step_text(new[1]), "", NEW)
    if new is None:
        return Row(f"Step {old[0].position} of before", step_text(old[1]), step_text(None), "", GONE)
    said = aspects(old[0], new[0])
    is_same = not said and step_text(old[1]) == step_text(alike)
    change = f"{'; '.join(said).capitalize()}." if said else ""
    where = f"Step {new[0].position}"
    return Row(where, step_text(old[1]), step_text(new[1]), change, SAME if is_same else CHANGED)


def _place(stay: StayData) -> tuple[str | None, str, str, int]:
    return stay.appliance_kind, stay.heat, stay.door, stay.shelves


def _work(step: StepData) -> int:
    return step.active_minutes if step.ways else 0
