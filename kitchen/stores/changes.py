"""What has changed since kits were made: what they were reckoned from then, beside now, in words.

For the kits page, the issue page and the requisition. Both sides are ``proposal.inputs_of``.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from curriculum import wording
from kitchen.stores.kits import ahead_title
from kitchen.stores.proposal import Question
from kitchen.stores.trays import Tray

#: Inputs that are compared by a figure, with the words before the figures.
FIGURES = {"portions": "Portions a bench", "spare_batches": "Batches to spare"}

#: What plates of a bench are for, in the order in which they are kept.
PLATES = ("tasting", "the photograph", "the second marker")


def changes(then: Mapping[str, Any], now: Mapping[str, Any], names: Mapping[str, str]) -> tuple[str, ...]:
    """Sentences, one a difference; ``names`` are the recipe's components by code."""
    return tuple(_changes(then, now, names))


def component_names(question: Question) -> dict[str, str]:
    """Names of the ordinary recipe's components by their code."""
    return {each.code: each.name for each in question.recipes[question.version].components}


def plated(tray: Tray, inputs: Mapping[str, Any], number: int, *, ordinary: bool) -> Tray:
    """A tray of an accepted set with the plate and title that its demonstration gives it.

    ``number`` counts the kits of its kind; ``ordinary``: it holds the lesson's own recipe.
    """
    trays = inputs.get("shown", {}).get("trays", [])
    weighed = [each for each in trays if each["weighed"]]
    if tray.kind == "stage_tray" and number <= len(weighed):
        kept = weighed[number - 1]
        return replace(tray, label=kept["plate"], title=f"{tray.title}, {kept['made']}")
    if tray.kind == "ahead" and ordinary:
        for_trays = sum(each["ahead"] for each in trays)
        return replace(tray, title=ahead_title(tray.title, tray.batches, for_trays))
    return tray


def _changes(then: Mapping[str, Any], now: Mapping[str, Any], names: Mapping[str, str]) -> Iterator[str]:
    if then["version"] != now["version"]:
        yield "Another recipe, or another version of it, is cooked now."
    if then["use_on"] != now["use_on"]:
        yield f"The lesson was on {_day(then)}; it is on {_day(now)} now."
    for name, words in FIGURES.items():
        if then[name] != now[name]:
            yield f"{words}: {then[name]} before, {now[name]} now."
    if then["benches"] != now["benches"]:
        yield from _benches(then["benches"], now["benches"])
    yield from _plates(then, now)
    if then["ahead_steps"] != now["ahead_steps"]:
        yield f"Done ahead: {_steps(then['ahead_steps'])} before, {_steps(now['ahead_steps'])} now."
    yield from _shown(then, now, names)


def _day(inputs: Mapping[str, Any]) -> str:
    return wording.long_date(date.fromisoformat(inputs["use_on"]))


def _benches(then: list, now: list) -> Iterator[str]:
    """Which benches came, which are gone, which work another recipe; [place, plate, version] each."""
    old, new = ({plate: version for _, plate, version in rows} for rows in (then, now))
    came = [plate for plate in new if plate not in old]
    gone = [plate for plate in old if plate not in new]
    other = [plate for plate in new if plate in old and new[plate] != old[plate]]
    for plates, one, many in (
        (came, "is worked now as well", "are worked now as well"),
        (gone, "is not worked any more", "are not worked any more"),
        (other, "works another recipe now", "work another recipe now"),
    ):
        if plates:
            name = "Bench" if len(plates) == 1 else "Benches"
            yield f"{name} {wording.listed(plates)} {one if len(plates) == 1 else many}."
    if not (came or gone or other):
        yield "Benches were given out again."


def _plates(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[str]:
    before, after = (each.get("plates", [0, 0, 0]) for each in (then, now))
    for words, old, new in zip(PLATES, before, after, strict=True):
        if old != new:
            yield f"Plates for {words}: {_many(old)} a bench before, {_many(new)} now."


def _many(count: int) -> str:
    return wording.number(count) if count else "none"


def _steps(positions: list[int]) -> str:
    if not positions:
        return "nothing"
    many = "s" if len(positions) > 1 else ""
    return f"step{many} {wording.listed(str(each) for each in positions)}"


def _shown(then: Mapping[str, Any], now: Mapping[str, Any], names: Mapping[str, str]) -> Iterator[str]:
    """What the demonstration takes: trays by how far they are made, then batches by component."""
    before, after = (_trays(each) for each in (then, now))
    if before != after:
        yield f"Stage trays of the demonstration: {_listed(before)} before, {_listed(after)} now."
    old, new = (_batches(each, names) for each in (then, now))
    for code, name in names.items():
        if old[code] != new[code]:
            count = wording.counted_words(old[code], "batch", "batches") if old[code] else "none"
            yield (
                f"{name} for the demonstration: {count} before, "
                f"{wording.number(new[code]) if new[code] else 'none'} now."
            )


def _trays(inputs: Mapping[str, Any]) -> list[str]:
    return [each["made"] for each in inputs.get("shown", {}).get("trays", [])]


def _listed(words: list[str]) -> str:
    return wording.listed(words) if words else "none"


def _batches(inputs: Mapping[str, Any], names: Mapping[str, str]) -> Counter[str]:
    """Batches of each component; whole ones where no demonstration was accepted."""
    shown = inputs.get("shown")
    if shown is None:
        return Counter({code: inputs["demonstration_batches"] for code in names})
    return Counter([*(code for each in shown["trays"] for code in each["components"]), *shown["live"]])
