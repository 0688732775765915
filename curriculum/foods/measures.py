"""Amounts as cooks write them, read and converted; the only door to pint.

For pasting ingredient lines and for forms. Our own grammar reads the words: pint never
sees what a person typed (it reads "1 1/2 cup" as half a cup, "1½ cup" as one and "pinch"
as a length). pint converts between named units, in a closed registry of our own with exact
fractions, built once when this file is imported and never changed; no contexts.

What is read: ``250g``, ``1 1/2 cups``, ``1½ cup``, ``1,5 l``, ``2-3``, ``1 lb 3 oz``,
``2 x 400 g``, ``a pinch``, ``half a lemon``, ``6 eggs``, ``to taste``. What cannot be read is
handed back with a sentence that says why (``trouble``), never a guess: a cup without a
system, a letter that stands for two spoons, a range that goes down, "1.500".

Worked example: "1 lb 3 oz plain flour, sifted" is 19 ounces = 538,640.94 mg exactly
(538.64 g), of "plain flour", with the note "sifted".
"""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

import pint

from curriculum.foods import units
from curriculum.foods.units import Unit

#: A line of a recipe is shorter; longer text is no ingredient line.
LONGEST_LINE = 300

_REGISTRY = pint.UnitRegistry(None, non_int_type=Fraction)
for _words in ("milligram = [mass]", "millilitre = [volume]", "piece = [piece]"):
    _REGISTRY.define(_words)
for _measure in units.MEASURES:
    if _measure.name not in ("milligram", "millilitre"):
        _base = "milligram" if _measure.dimension == "mass" else "millilitre"
        _REGISTRY.define(
            f"{_measure.name} = {_measure.size.numerator} / {_measure.size.denominator} * {_base}"
        )


@dataclass(frozen=True, slots=True)
class Amount:
    """From ``least`` to ``most`` of a unit (the same when it is no range).

    ``times`` is 2 in "2 x 400 g", where the amount is already the product.
    """

    least: Fraction
    most: Fraction
    unit: Unit
    times: int = 1

    @property
    def milligrams(self) -> Fraction | None:
        """Its weight (the most of a range), exact; None for what is no weight."""
        return self.most * self.unit.size if self.unit.dimension == "mass" else None

    @property
    def millilitres(self) -> Fraction | None:
        """Its volume (the most of a range), exact; None for what is no volume."""
        return self.most * self.unit.size if self.unit.dimension == "volume" else None


@dataclass(frozen=True, slots=True)
class LineRead:
    """What was read of one line. ``trouble`` is empty when all of it was understood."""

    text: str
    amount: Amount | None
    food: str
    note: str = ""
    trouble: str = ""


class Unreadable(ValueError):
    """What was written cannot be read as an amount; the message says why, in a sentence."""


def convert(value: Fraction | int, unit: Unit, to: Unit) -> Fraction:
    """``value`` of ``unit`` in ``to``, exact. Unreadable when one is a weight and the other is not."""
    if unit.dimension != to.dimension or unit.dimension not in ("mass", "volume"):
        raise Unreadable(f"{unit.many} cannot be turned into {to.many} without knowing the food.")
    quantity = _REGISTRY.Quantity(Fraction(value), unit.name)
    return Fraction(quantity.to(to.name).magnitude)


def weight_of(amount: Amount, milligrams_per_ml: int | None) -> Fraction | None:
    """Exact milligrams of an amount; a volume needs the density of the food, else None."""
    if amount.milligrams is not None:
        return amount.milligrams
    if amount.millilitres is not None and milligrams_per_ml is not None:
        return amount.millilitres * milligrams_per_ml
    return None


def read_amount(text: str, system: str | None = None) -> Amount:
    """The whole text as an amount. Unreadable when it is none, or something is left over."""
    if len(text) > LONGEST_LINE:
        raise Unreadable(f"This has more than {LONGEST_LINE} letters. Write only the amount.")
    amount, rest = _amount(_plain(text), system)
    if amount is None:
        raise Unreadable(f"“{text.strip()}” begins with no amount. Write one, such as 250 g.")
    if rest:
        raise Unreadable(f"“{rest}” is left over after the amount. Write only the amount.")
    return amount


def is_without_size(text: str) -> bool:
    """Whether a text says nothing but "to taste", "as needed" or the like."""
    return _LOOSE.fullmatch(" ".join(text[:LONGEST_LINE].split())) is not None


def read_line(text: str, system: str | None = None) -> LineRead:
    """One ingredient line: amount, food, note. What is in the way is named in ``trouble``."""
    if len(text) > LONGEST_LINE:
        return LineRead(
            text, None, "", "", f"This line has more than {LONGEST_LINE} letters. Write a shorter one."
        )
    plain = re.sub(r"^[-*•·–]\s+", "", _plain(text))
    try:
        amount, rest = _amount(plain, system)
    except Unreadable as error:
        return LineRead(text, None, *_food_and_note(_BEGINNING.sub("", plain)), str(error))
    food, note = _food_and_note(rest)
    if amount is None:
        amount, food, note = _loose(food, note)
    if amount is None:
        return LineRead(text, None, food, note, "No amount is written. Write one, or “to taste”.")
    return LineRead(text, amount, food, note, _trouble_with(food))


def _trouble_with(food: str) -> str:
    """Why what is left after the amount cannot be a food; empty when it can."""
    if not food:
        return "No food is named after the amount."
    if _GOES_ON.match(food) or _FIGURE_AND_MEASURE.search(food):
        return f"“{food}” goes on with another figure. Write one amount, such as 2 x 400 g."
    return ""


def read_lines(text: str, system: str | None = None) -> list[LineRead]:
    """Every line that is not empty, each read on its own."""
    return [read_line(line, system) for line in text.splitlines() if line.strip()]


_NAMES = {units.US: "US", units.AUSTRALIAN: "Australian"}

# The grammar

_VULGAR = re.compile(r"(?<=\d)(?=[¼-¾⅐-⅞])")
_MIXED = re.compile(r"(\d+) +(\d+) ?/ ?(\d+)(?!\d)")
_PARTED = re.compile(r"(\d+) ?/ ?(\d+)(?!\d)")
_DECIMAL = re.compile(r"\d+(?:[.,]\d+)*(?!\d)")
_SMALL_WORDS = sorted({*units.SAME_EVERYWHERE, *units.BY_SYSTEM, *units.COUNTED})
_IN_WORDS = (
    (re.compile(r"half (?:a |an )?dozen\b", re.I), Fraction(6)),
    (re.compile(r"half (?:an?|of an?)\b", re.I), Fraction(1, 2)),
    (re.compile(r"(?:a )?dozen\b", re.I), Fraction(12)),
    (re.compile(r"one\b", re.I), Fraction(1)),
    (re.compile(r"an?\b(?= (?:" + "|".join(_SMALL_WORDS) + r")\b)", re.I), Fraction(1)),
)
_DOZEN = re.compile(r"doz(?:en)?\b\.?", re.I)
_TO = re.compile(r" ?(?:-|–|—|to\b|or\b) ?", re.I)
_TIMES = re.compile(r" ?[x×] ?(?=\d)", re.I)
_WORD = re.compile(r"([^\W\d_]+)\.?")
_FLUID = re.compile(r"fl(?:uid)?\.? ?(?:oz|ounces?)\b\.?", re.I)
_AND = re.compile(r" ?(?:\+|&|,|and\b) ?", re.I)
#: A figure and a measure that were not understood; what comes after them may still be a food.
_BEGINNING = re.compile(r"^[-\d\s/.,–]+(?:[^\W\d_]+\.?\s+(?:of\s+)?)?")
_LOOSE = re.compile(r"\b(?:to taste|as needed|as required|for dusting|for greasing)\b", re.I)
_GOES_ON = re.compile(r"^(?:[\d%°/.,x×+&-]|(?:and|plus|or|to) \d)", re.I)
_FIGURE_AND_MEASURE = re.compile(r"\d ?(?:" + "|".join(_SMALL_WORDS) + r")\b", re.I)


def _plain(text: str) -> str:
    """Compatible letters, "1½" as "1 1/2", single spaces."""
    parted = unicodedata.normalize("NFKC", _VULGAR.sub(" ", text)).replace("⁄", "/").replace("−", "-")
    return " ".join(parted.split())


def _amount(text: str, system: str | None) -> tuple[Amount | None, str]:
    """(amount, what is left) at the beginning of a plain text; (None, text) when it begins with none."""
    if re.match(r"-\s?\d", text):
        raise Unreadable(f"“{text}” begins below nothing. Write an amount above nothing.")
    first, rest = _number(text)
    if first is None:
        return None, text
    if (product := _product(first, rest, system)) is not None:
        return product
    least, most, rest = _range(first, rest)
    unit, rest = _unit(rest, system)
    amount = Amount(least, most, unit or units.PIECE)
    if most <= 0:
        raise Unreadable("An amount of nothing is no amount. Write one above nothing.")
    return (amount, rest) if unit is None else _and_more(amount, rest, system)


def _product(first: Fraction, rest: str, system: str | None) -> tuple[Amount, str] | None:
    """ "2 x 400 g": so many times an amount."""
    sign = _TIMES.match(rest)
    if sign is None or first.denominator != 1:
        return None
    each, left = _number(rest[sign.end() :])
    unit, left = _unit(left, system)
    if unit is None or each is None:
        raise Unreadable(f"“{rest.strip()}” says how many times, but not of how much. Write 2 x 400 g.")
    total = first * each
    return Amount(total, total, unit, int(first)), left


def _range(first: Fraction, rest: str) -> tuple[Fraction, Fraction, str]:
    sign = _TO.match(rest)
    if sign is None:
        return first, first, rest
    second, left = _figure(rest[sign.end() :])
    if second is None:
        return first, first, rest
    if dozens := _DOZEN.match(left):
        first, second, left = first * 12, second * 12, left[dozens.end() :].lstrip()
    if second < first:
        raise Unreadable("The range goes down. Write the smaller amount first, or 1 1/2 for one and a half.")
    return first, second, left


def _and_more(amount: Amount, rest: str, system: str | None) -> tuple[Amount, str]:
    """ "1 lb 3 oz": the same kind of measure goes on in a smaller unit."""
    while amount.unit.dimension in ("mass", "volume"):
        joined = _AND.match(rest)
        begin = rest[joined.end() :] if joined else rest
        try:
            more, left = _number(begin)
            unit, left = _unit(left, system) if more is not None else (None, left)
        except Unreadable:
            break
        if unit is None or unit.dimension != amount.unit.dimension or unit.size >= amount.unit.size:
            break
        added = more * unit.size
        amount = Amount(
            (amount.least * amount.unit.size + added) / unit.size,
            (amount.most * amount.unit.size + added) / unit.size,
            unit,
        )
        rest = left
    return amount, rest


def _number(text: str) -> tuple[Fraction | None, str]:
    """(number, what is left) at the beginning of a text: "2 dozen" is 24."""
    value, rest = _figure(text)
    dozens = _DOZEN.match(rest) if value is not None else None
    return (value * 12, rest[dozens.end() :].lstrip()) if dozens else (value, rest)


def _figure(text: str) -> tuple[Fraction | None, str]:
    if found := _MIXED.match(text):
        return int(found[1]) + _parted(found[2], found[3]), text[found.end() :].lstrip()
    if found := _PARTED.match(text):
        return _parted(found[1], found[2]), text[found.end() :].lstrip()
    if found := _DECIMAL.match(text):
        return _decimal(found[0]), text[found.end() :].lstrip()
    for pattern, value in _IN_WORDS:
        if found := pattern.match(text):
            return value, text[found.end() :].lstrip()
    return None, text


def _parted(above: str, below: str) -> Fraction:
    if int(below) == 0:
        raise Unreadable(f"“{above}/{below}” divides by nothing. Write a fraction such as 1/2.")
    return Fraction(int(above), int(below))


def _decimal(text: str) -> Fraction:
    """ "1,5" and "1.5" are one and a half, "1,500" is fifteen hundred; "1.500" could be either."""
    if len(text) > 12:
        raise Unreadable(f"“{text}” is too long for an amount.")
    signs = [letter for letter in text if letter in ".,"]
    if not signs:
        return Fraction(int(text))
    tail = re.split(r"[.,]", text)[-1]
    if len(signs) > 1 or (signs == ["."] and len(tail) == 3):
        raise Unreadable(f"“{text}” can be read in two ways. Write thousands without a sign: 1500.")
    if signs == [","] and len(tail) == 3 and not text.startswith("0"):
        return Fraction(int(text.replace(",", "")))
    return Fraction(text.replace(",", "."))


def _unit(text: str, system: str | None) -> tuple[Unit | None, str]:
    """(unit, what is left) at the beginning of a text; (None, text) when no measure begins it."""
    if found := _FLUID.match(text):
        return _of_system("floz", "fl oz", system), text[found.end() :].strip()
    found = _WORD.match(text)
    if found is None:
        return None, text
    word = found[1].casefold()
    rest = re.sub(r"^of\b ?", "", text[found.end() :].strip(), flags=re.I)
    if word in units.BY_SYSTEM:
        return _of_system(word, found[1], system), rest
    known = units.SAME_EVERYWHERE.get(word) or units.COUNTED.get(word)
    if known is not None:
        return known, rest
    why = units.NOT_A_MEASURE.get(word, "is no measure" if len(word) == 1 else "")
    if why:
        raise Unreadable(f"“{found[1]}” {why}. Write grams, millilitres, tsp, tbsp or a count.")
    return None, text


def _of_system(word: str, written: str, system: str | None) -> Unit:
    meanings = units.BY_SYSTEM[word]
    if system is None:
        raise Unreadable(
            f"“{written}” is not the same everywhere ({_sizes(meanings)}). Say which measures are meant."
        )
    if system not in meanings:
        raise Unreadable(f"“{written}” is no measure of this system ({_sizes(meanings)}).")
    return meanings[system]


def _sizes(meanings: dict[str, Unit]) -> str:
    return ", ".join(f"{_NAMES.get(system, system)} {_size(unit)}" for system, unit in meanings.items())


def _size(unit: Unit) -> str:
    size, sign = (unit.size, "ml") if unit.dimension == "volume" else (unit.size / 1000, "g")
    return f"{float(size):.1f}".removesuffix(".0") + f" {sign}"


def _food_and_note(text: str) -> tuple[str, str]:
    """ "plain flour, sifted" and "butter (softened)" parted into food and note."""
    notes = re.findall(r"\(([^)]*)\)", text)
    bare = " ".join(re.sub(r"\([^)]*\)", " ", text).split())
    food, _, tail = bare.partition(",")
    return food.strip(" .;:"), "; ".join(part for part in [tail.strip(" .;:"), *notes] if part)


def _loose(food: str, note: str) -> tuple[Amount | None, str, str]:
    """ "salt, to taste" and "flour for dusting": an amount without a size."""
    said = f"{food}; {note}" if note else food
    if _LOOSE.search(said) is None:
        return None, food, note
    bare = _LOOSE.sub("", food).strip(" ,;")
    words = _LOOSE.search(said)[0].lower()
    kept = [part for part in re.split(r"; ", note) if part and _LOOSE.search(part) is None]
    return Amount(Fraction(1), Fraction(1), units.SOME), bare, "; ".join([words, *kept])
