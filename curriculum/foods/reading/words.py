"""The word for a measure at the beginning of a text, and the words that may stand before it.

For the reader of amounts. A word that differs between systems is found only with a system;
a word that looks like a measure and has no one size is handed back, and so is a measure that is
spelled with a letter too many, too few or two changed places ("tbps"): it is never a food.

Worked example: "tbsp sugar" in the Australian system is the tablespoon of 20 ml, "sugar" is left;
without a system it is handed back with what each system would make of it.
"""

import re

from curriculum.foods import units
from curriculum.foods.reading.figures import Unreadable
from curriculum.foods.units import Unit

_NAMES = {units.US: "US", units.AUSTRALIAN: "Australian"}
_WORD = re.compile(r"([^\W\d_]+)\.?(?![-'][^\W\d_])")
_FLUID = re.compile(r"fl(?:uid)?\.? ?(?:ozs?|ounces?)\b\.?", re.I)
_OF = re.compile(r"of\b ?", re.I)
#: A level spoon is the measure itself.
_LEVEL = re.compile(r"level\b ?", re.I)
_HEAPED = re.compile(r"(heaped|heaping|rounded|scant|generous|good|large|big|small|packed)\b ?", re.I)
_SIZED = re.compile(
    r"((?:very |extra )?(?:large|small|medium|big|fat|plump|fresh|generous|good|thick|thin|long|whole))\b ?",
    re.I,
)
_BUTTER = re.compile(r"\b(?:butter|margarine)\b", re.I)
#: "1 pound cake" and "6 cup cakes" count cakes.
_CAKES = re.compile(r"(?:pound|cup|cups) cakes?\b", re.I)
MEASURE_WORDS = frozenset(
    word for word, unit in units.SAME_EVERYWHERE.items() if unit.dimension in ("mass", "volume")
) | (frozenset(units.BY_SYSTEM) - {"stick", "sticks"})


def measure(text: str, system: str | None) -> tuple[Unit | None, str, str]:
    """(unit, what is left, what was said of its size) at the beginning of a text; None without a measure."""
    if found := _FLUID.match(text):
        return _of_system("floz", text, system), _after(text, found.end()), ""
    if _CAKES.match(text):
        raise Unreadable(f"“{text[:20]}” can be a measure or a kind of cake. Write grams or pieces.", text)
    level = _LEVEL.match(text)
    if level and (found := _WORD.match(text, level.end())) and found[1].casefold() in MEASURE_WORDS:
        text = text[level.end() :]
    found = _WORD.match(text)
    if found is None:
        return None, text, ""
    word, rest = found[1].casefold(), _after(text, found.end())
    if word in ("stick", "sticks"):
        return _stick(text, rest, system), rest, ""
    if word in units.BY_SYSTEM:
        return _of_system(word, text, system), rest, ""
    known = units.SAME_EVERYWHERE.get(word) or units.COUNTED.get(word)
    return (known, rest, "") if known is not None else _sized(text, word, found[1])


def _sized(text: str, word: str, typed: str) -> tuple[Unit | None, str, str]:
    """A word before the measure, or one that is no measure at all."""
    heaped = _HEAPED.match(text)
    if heaped and (found := _WORD.match(text, heaped.end())) and found[1].casefold() in MEASURE_WORDS:
        raise Unreadable(f"“{heaped[0]}{found[1]}” has no one size. Write level measures or grams.", text)
    if sized := _SIZED.match(text):
        found = _WORD.match(text, sized.end())
        known = found and _countable(found[1].casefold())
        if known:
            return known, _after(text, found.end()), sized[1]
    why = units.NOT_A_MEASURE.get(word, "is no measure" if len(word) == 1 else "")
    if not why and (meant := misspelt(word)):
        why = f"looks like {meant}, and is not spelled so"
    if why:
        raise Unreadable(f"“{typed}” {why}. Write grams, millilitres, tsp, tbsp or a count.", text)
    return None, text, ""


def _countable(word: str) -> Unit | None:
    if word in ("stick", "sticks"):
        return units.COUNTED_STICK
    known = units.SAME_EVERYWHERE.get(word)
    return known if known and known.dimension == "loose" else units.COUNTED.get(word)


def misspelt(word: str) -> str:
    """The measure that a word is one slip away from: a letter too many, too few, two changed over."""
    if len(word) < 4 or word in MEASURE_WORDS:
        return ""
    shorter = {word[:place] + word[place + 1 :] for place in range(len(word))}
    turned = {
        word[:place] + word[place + 1] + word[place] + word[place + 2 :] for place in range(len(word) - 1)
    }
    for known in sorted(MEASURE_WORDS):
        less = {known[:place] + known[place + 1 :] for place in range(len(known))}
        if len(known) >= 4 and (known in shorter or known in turned or word in less):
            return known
    return ""


def _after(text: str, end: int) -> str:
    rest = text[end:].lstrip()
    joined = _OF.match(rest)
    return rest[joined.end() :] if joined else rest


def _stick(text: str, rest: str, system: str | None) -> Unit:
    """A stick of butter is a US measure (of whipped butter it is not); a stick of celery is counted."""
    butter = _BUTTER.search(rest) and "whipped" not in rest.casefold()
    if rest and not butter:
        return units.COUNTED_STICK
    return _of_system("stick", text, system)


def _of_system(word: str, text: str, system: str | None) -> Unit:
    meanings = units.BY_SYSTEM[word]
    typed = "fl oz" if word == "floz" else (_WORD.match(text) or [word, word])[1]
    if system is None:
        raise Unreadable(
            f"“{typed}” is not the same everywhere ({sizes(meanings)}). Say which measures are meant.", text
        )
    if system not in meanings:
        raise Unreadable(f"“{typed}” is no measure of this system ({sizes(meanings)}).", text)
    return meanings[system]


def sizes(meanings: dict[str, Unit]) -> str:
    """ "metric 15 ml, US 14.8 ml": what one word is in each system."""
    return ", ".join(f"{_NAMES.get(system, system)} {_size(unit)}" for system, unit in meanings.items())


def _size(unit: Unit) -> str:
    size, sign = (unit.size, "ml") if unit.dimension == "volume" else (unit.size / 1000, "g")
    return f"{float(size):.1f}".removesuffix(".0") + f" {sign}"
