"""A schema.org Recipe read out of JSON-LD: alone, in a list, in a graph, inside a saved page.

What has a place here is read: name, yield, ingredients, instructions (text, steps, sections), times,
tools. Everything else is carried as it came. What is neither is named with its reason.

Worked example: {"@type": "Recipe", "name": "Rolls", "recipeYield": "8 rolls", "recipeIngredient":
["500 g flour"], "recipeInstructions": "Mix.\\nBake.", "author": {"name": "Ida"}} is eight rolls of one
line and two steps; the author is carried.
"""

import re
from collections.abc import Iterator

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange import reading
from curriculum.recipes.interchange.durations import read_seconds
from curriculum.recipes.interchange.json_text import text_of
from curriculum.recipes.interchange.reading import ImportedLine, ImportedRecipe, ImportedStep, NotRead
from curriculum.recipes.interchange.web_text import lines_of, plain_words
from curriculum.wording import figure

KIND = "a schema.org Recipe (JSON-LD)"
TIMES = ("prepTime", "cookTime", "totalTime", "performTime")
#: Retired names of the standard, read where the name of today is missing.
RETIRED = {"recipeIngredient": "ingredients"}
_NUMBERED = re.compile(r"^(?:step )?\d{1,2}[.):]\s+", re.IGNORECASE)


def read(document: object) -> ImportedRecipe:
    """The first Recipe of a document that was parsed. RuleBroken when there is none, or it is too long."""
    found = recipes_in(document)
    if not found:
        raise RuleBroken(
            "no_recipe", "No object of the type Recipe is in it. Bring a file that holds one, or its text."
        )
    first, others = found[0], found[1:]
    lines, line_values, bad_lines = _lines(first)
    steps, step_values, bad_steps = _steps(first)
    times, bad_times = _times(first)
    tools, bad_tools = _tools(first)
    carried, too_large = _carried(first)
    yields = _yield_texts(first.get("recipeYield", first.get("yield")))
    portions, unit = _count(yields)
    return ImportedRecipe(
        KIND,
        plain_words(_text(first.get("name"))),
        yields[-1] if yields else "",
        portions,
        unit,
        lines,
        steps,
        times,
        tools,
        carried=carried,
        not_read=tuple(
            one
            for bad in (bad_lines, bad_steps, bad_times, bad_tools, too_large, _left(others))
            for one in reading.first_of(bad)
        ),
        line_values=line_values,
        step_values=step_values,
    )


def recipes_in(document: object) -> list[dict]:
    """Every object of the type Recipe, those at the top first; lists, graphs and main entities are opened."""
    found: list[dict] = []
    here = [document]
    while here:
        inside: list[object] = []
        for value in here:
            if isinstance(value, list):
                inside += value
            elif isinstance(value, dict):
                if _is(value, "Recipe"):
                    found.append(value)
                else:
                    inside += [value[name] for name in _HOLDING if name in value]
        here = inside
    return found


_HOLDING = ("@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item", "about", "hasPart")


def _is(value: dict, name: str) -> bool:
    kinds = value.get("@type")
    kinds = kinds if isinstance(kinds, list) else [kinds]
    return any(isinstance(kind, str) and re.split(r"[/#:]", kind)[-1] == name for kind in kinds)


def _text(value: object) -> str:
    """A text, a figure, or the text or name of an object; empty for anything else."""
    if isinstance(value, list):
        return next((text for one in value if (text := _text(one))), "")
    if isinstance(value, dict):
        value = value.get("@value") or value.get("text") or value.get("name")
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ""
    return value if isinstance(value, str) else f"{value:.10g}"


def _listed(value: object) -> list:
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


def _yield_texts(value: object) -> list[str]:
    said = []
    for one in _listed(value):
        if isinstance(one, dict) and "value" in one:
            one = f"{_text(one['value'])} {_text(one.get('unitText'))}"
        said.append(plain_words(_text(one)))
    return [words for words in said if words]


def _count(yields: list[str]) -> tuple[int | None, str]:
    """The count of the first yield that names a unit, else of the first that has a count."""
    counts = [pair for pair in map(reading.read_yield, yields) if pair[0]]
    named = [pair for pair in counts if pair[1] != "portion"]
    return [*named, *counts, (None, "portion")][0]


def _lines(recipe: dict) -> tuple[tuple[ImportedLine, ...], tuple[str, ...], list[NotRead]]:
    value = recipe.get("recipeIngredient", recipe.get(RETIRED["recipeIngredient"]))
    parted = _each_line(value)
    demand_few(len(parted), reading.MOST_LINES, "ingredient lines")
    lines, values, bad = [], [], []
    for one, whole in parted:
        words = plain_words(_text(one))
        if words:
            lines.append(ImportedLine(words))
            values.append(text_of(one) if whole else "")
        else:
            bad.append(NotRead(f"Ingredient {_shown(one)}", "It holds no words, so it is no line."))
    return tuple(lines), tuple(values), bad


def _each_line(value: object) -> list[tuple[object, bool]]:
    """Each line with whether it is a whole entry of a list; one text is parted at its line ends."""
    if isinstance(value, str):
        return [(line, False) for line in lines_of(value)]
    return [(one, True) for one in _listed(value)]


def _steps(recipe: dict) -> tuple[tuple[ImportedStep, ...], tuple[str, ...], list[NotRead]]:
    steps: list[ImportedStep] = []
    values: list[str] = []
    bad: list[NotRead] = []
    for one, section, texts in _instructions(recipe.get("recipeInstructions"), ""):
        if not texts:
            bad.append(NotRead(f"Instruction {_shown(one)}", "It holds no words, so it is no step."))
        for text in texts:
            words = _NUMBERED.sub("", text)
            parts = reading.parted_step(words)
            whole = len(texts) == len(parts) == 1 and isinstance(one, dict | str)
            if len(parts) > 1:
                bad.append(
                    NotRead(f"“{words[:60]}…” as one step", "It is longer than 600 letters: it is parted.")
                )
            steps += [ImportedStep(part, section, len(values)) for part in parts]
            values += [text_of(one) if whole else ""] * len(parts)
        demand_few(len(steps), reading.MOST_STEPS, "steps")
    return tuple(steps), tuple(values), bad


def _instructions(value: object, section: str) -> Iterator[tuple[object, str, list[str]]]:
    """(the object, its section, its texts) of each instruction, sections opened."""
    for one in _listed(value):
        if isinstance(one, list):
            yield from _instructions(one, section)
        elif isinstance(one, dict) and "itemListElement" in one:
            name = plain_words(_text(one.get("name")))
            yield from _instructions(one["itemListElement"], name or section)
        elif isinstance(one, dict) and isinstance(one.get("item"), dict):
            yield from _instructions(one["item"], section)
        elif isinstance(one, dict):
            yield one, section, [words] if (words := plain_words(_text(one))) else []
        else:
            yield one, section, lines_of(_text(one))


def _times(recipe: dict) -> tuple[tuple, list[NotRead]]:
    times, bad = [], []
    for name in TIMES:
        if name not in recipe:
            continue
        said = _text(recipe[name]).strip()
        try:
            times.append((name, read_seconds(said), said))
        except RuleBroken as error:
            bad.append(NotRead(name, error.message))
    return tuple(times), bad


def _tools(recipe: dict) -> tuple[tuple[str, ...], list[NotRead]]:
    names = [plain_words(_text(one)) for one in _listed(recipe.get("tool"))]
    fit = [name for name in names if name and len(name) <= 60 and not name.isdecimal()]
    bad = [
        NotRead(f"Tool “{name[:60]}”", "A thing has a short name here.") for name in names if name not in fit
    ]
    if len(fit) > reading.MOST_TOOLS:
        bad.append(NotRead(f"{len(fit) - reading.MOST_TOOLS} tools", "A recipe here takes 60 at most."))
    return tuple(fit[: reading.MOST_TOOLS]), bad


def _carried(recipe: dict) -> tuple[tuple[tuple[str, str], ...], list[NotRead]]:
    kept, bad, whole = [], [], 0
    for name, value in recipe.items():
        text = text_of(value)
        if not name:
            bad.append(NotRead("A property without a name", "It cannot be kept."))
        elif len(text) > reading.MOST_CARRIED or whole + len(text) > reading.MOST_CARRIED_WHOLE:
            size = f"It has {figure(len(text))} characters; the file holds more than is kept beside a recipe."
            bad.append(NotRead(f"“{name[:60]}”", size))
        else:
            whole += len(text)
            kept.append((name, text))
    return tuple(kept), bad


def _left(others: list[dict]) -> list[NotRead]:
    why = "The file holds more than one recipe, and the first is shown. Bring this one in by itself."
    named = [plain_words(_text(one.get("name")))[:80] or "without a name" for one in others]
    return [NotRead(f"Recipe “{name}”", why) for name in named]


def _shown(value: object) -> str:
    text = text_of(value)
    return f"“{text[:40]}…”" if len(text) > 40 else f"“{text}”"


def demand_few(count: int, most: int, what: str) -> None:
    """RuleBroken when there are more than a recipe here takes."""
    if count > most:
        raise RuleBroken(
            "too_many",
            f"These are {figure(count)} {what}. A recipe here takes {most} at most. Part it into several.",
        )
