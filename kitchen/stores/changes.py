"""What has changed since kits were made: what they were reckoned from then, beside now, in words.

For the kits page, the issue page and the requisition. Both sides are ``proposal.inputs_of``.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from curriculum import wording
from kitchen.stores.kits import ahead_title
from kitchen.stores.proposal import Question
from kitchen.stores.trays import Tray

#: Inputs that are compared by a figure, with the words before the figures.
FIGURES = {"portions": "Portions a bench", "spare_batches": "Batches to spare"}


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
        yield "The lesson is on another day now."
    for name, words in FIGURES.items():
        if then[name] != now[name]:
            yield f"{words}: {then[name]} before, {now[name]} now."
    if then["benches"] != now["benches"]:
        yield _benches(len(then["benches"]), len(now["benches"]))
    if then["ahead_steps"] != now["ahead_steps"]:
        yield f"Done ahead: {_steps(then['ahead_steps'])} before, {_steps(now['ahead_steps'])} now."
    yield from _shown(then, now, names)


def _benches(then: int, now: int) -> str:
    if then == now:
        return "Benches have other places or other recipes now."
    return wording.sentence(f"{wording.counted_words(then, 'bench', 'benches')} before, {now} now")


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
