"""Reads what a scanner sends or a person types: bar codes of the GS1 system and our own codes.

For the scan box of a delivery. Plain text in, plain data out; what cannot be read is handed
back with its place and the reason, and never guessed.

What is read
------------
- element strings, plain or with separators: ``01095011015300031727123110LOT42``; the separator
  is the character GS (29), or typed as <GS>, <FNC1>, {GS}, {FNC1}, ^] or the sign for it;
- the prefix by which a scanner says what it read (``]C1``, ``]d2``, ``]Q3``, ``]e0``, ``]J1``:
  an element string; ``]E0``, ``]E4``: a plain number);
- the form people read, with brackets: ``(01)09501101530003(17)271231(10)LOT42``;
- plain numbers of 8, 12, 13 or 14 digits: always the number of a pack, so that a digit read
  wrong is caught; and our own codes of eight letters and digits.

Rules: a check digit is the last digit of a number; from the right the digits before it are
weighted 3, 1, 3, ..., and it fills the sum up to a ten. Day 00 of a date is the last day of
its month. A year of two digits is the one that lies at most 49 years back or 50 years ahead.

Worked example: ``010950110153000315271231310300250010LOT42`` is pack 09501101530003, best
before 31 December 2027, 2.5 kg net, batch LOT42 (check-values, section 12).

Sources: GS1 General Specifications, check digit calculation and dates (from memory; the
examples of the tests were read or run); identifiers: ``kitchen.stores.identifiers``.
"""

import calendar
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from curriculum.codes import ALPHABET, LENGTH
from kitchen.stores.identifiers import CHECKED, DATES, PREDEFINED, Identifier, identifier_at

SEPARATOR = "\x1d"
ELEMENT_PREFIXES = ("]C1", "]d2", "]Q3", "]e0", "]J1")
NUMBER_PREFIXES = ("]E0", "]E4")
NUMBER_LENGTHS = (8, 12, 13, 14)
#: One sign of what was typed: a separator in any of its forms, or one character.
SIGN = re.compile(r"(?P<gap><(?:GS|FNC1)>|\{(?:GS|FNC1)\}|\^\]|\\x1d|\u241d|\x1d)|.", re.I | re.S)
BRACKET = re.compile(r"\((\d{2,4})\)")
#: What a batch may have swallowed when the separator behind it is missing.
SWALLOWED = re.compile(r"^.+?((?:11|13|15|16|17)\d{6})$")
#: The longest text that is looked at; a code of the standard has 48 or, in two dimensions, some hundreds.
LONGEST = 1000
MILLIGRAMS_A_KILOGRAM = 1_000_000
#: One pound is 0.45359237 kg: agreement of 1959 (check-values, section 1).
MILLIGRAMS_A_POUND = Fraction(45_359_237, 100)


@dataclass(frozen=True, slots=True)
class Element:
    """One thing a code says. ``value`` as it was read, ``at`` its place in what was typed, from 1.

    ``day`` of a date; ``amount`` with the point where it belongs. ``known`` is False for an
    identifier that is not in our table: its text is kept whole.
    """

    ai: str
    title: str
    value: str
    at: int
    day: date | None = None
    amount: Fraction | None = None
    known: bool = True


@dataclass(frozen=True, slots=True)
class Trouble:
    """What could not be read: its place from 1, the text there, and why."""

    at: int
    text: str
    why: str


@dataclass(frozen=True, slots=True)
class Reading:
    """Everything a code said, what could not be read of it, and what to look at again.

    ``ours`` is our own code of eight characters where it was one.
    """

    elements: tuple[Element, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    doubts: tuple[str, ...] = ()
    ours: str = ""

    def _first(self, *ais: str) -> Element | None:
        return next((each for ai in ais for each in self.elements if each.ai == ai), None)

    @property
    def gtin(self) -> str:
        """The number of the pack in fourteen digits, of the packs inside for a whole load; or empty."""
        found = self._first("01", "02", "03")
        return found.value if found else ""

    @property
    def batch(self) -> str:
        """The batch, or empty."""
        found = self._first("10")
        return found.value if found else ""

    @property
    def use_by(self) -> date | None:
        """The use-by date, or None."""
        found = self._first("17")
        return found.day if found else None

    @property
    def best_before(self) -> date | None:
        """The best-before date, or None."""
        found = self._first("15")
        return found.day if found else None

    @property
    def count(self) -> int | None:
        """How many packs are inside, or None; pieces within one pack (30) are none."""
        found = self._first("37")
        return int(found.value) if found else None

    @property
    def milligrams(self) -> int | None:
        """The net weight, or None; a gross weight is none, it has the packing in it."""
        for each in self.elements:
            if each.amount is not None and each.ai[:3] in ("310", "320"):
                factor = MILLIGRAMS_A_KILOGRAM if each.ai[:3] == "310" else MILLIGRAMS_A_POUND
                return int(each.amount * factor + Fraction(1, 2))
        return None


def check_digit(body: str) -> int:
    """The digit that closes a number whose other digits are ``body``."""
    weighted = (int(digit) * (3 if place % 2 == 0 else 1) for place, digit in enumerate(reversed(body)))
    return -sum(weighted) % 10


def read(words: str, year: int) -> Reading:
    """Read a code; ``year`` is the year it is read in, for years of two digits."""
    text, places = _signs(words[:LONGEST])
    if not text.strip(SEPARATOR):
        return _no(1, "", "Nothing was scanned.")
    if text.startswith("]"):
        return _prefixed(text, places, year)
    if len(text) in NUMBER_LENGTHS and _digits(text):
        return _number(text, places)
    if len(text) == LENGTH and set(text.upper()) <= set(ALPHABET):
        return Reading(ours=text.upper())
    if BRACKET.match(text):
        return _gathered(_bracketed(text, places, year))
    if _digits(text.lstrip(SEPARATOR)[:2]):
        return _gathered(_elements(text, places, year))
    return _no(places[0], text, "This is no code that is read here.")


def _signs(words: str) -> tuple[str, list[int]]:
    """The text without blanks and with one sign for a separator; beside it the place of each sign."""
    text, places = [], []
    for sign in SIGN.finditer(words):
        if sign["gap"] or not sign[0].isspace():
            text.append(SEPARATOR if sign["gap"] else sign[0])
            places.append(sign.start() + 1)
    return "".join(text), [*places, len(words) + 1]


def _prefixed(text: str, places: list[int], year: int) -> Reading:
    prefix, rest = text[:3], text[3:]
    if prefix in ELEMENT_PREFIXES:
        return _gathered(_elements(rest, places[3:], year)) if rest else _no(places[0], text, "It is empty.")
    if prefix in NUMBER_PREFIXES and len(rest) in NUMBER_LENGTHS and _digits(rest):
        return _number(rest, places[3:])
    return _no(places[0], prefix, "A scanner's prefix that is not read here.")


def _number(text: str, places: list[int]) -> Reading:
    """A plain number of a pack; fourteen digits are kept."""
    why = _wrong_check(text)
    if why:
        hint = " When this is the text under a code, type it with its brackets, such as (17)271231."
        return _no(places[0], text, why + hint)
    return Reading((Element("01", identifier_at("01").title, text.zfill(14), places[0]),))


def _wrong_check(number: str) -> str:
    right = check_digit(number[:-1])
    if right == int(number[-1]):
        return ""
    return f"The last digit of {number} is {number[-1]} and should be {right}. One digit was read wrong."


def _bracketed(text: str, places: list[int], year: int) -> Iterator[Element | Trouble]:
    marks = list(BRACKET.finditer(text))
    ends = [mark.start() for mark in marks[1:]] + [len(text)]
    for mark, end in zip(marks, ends, strict=True):
        value, at = text[mark.end() : end].strip(SEPARATOR), places[mark.start()]
        known = identifier_at(mark[1])
        if known is None or known.code != mark[1]:
            yield Element(mark[1], "not known here", value, at, known=False)
        else:
            yield _read_value(known, value, at, year)


def _elements(text: str, places: list[int], year: int) -> Iterator[Element | Trouble]:
    """Each element of a string, one behind the other."""
    place = 0
    while place < len(text):
        if text[place] == SEPARATOR:
            place += 1
            continue
        end = _end_of_element(text, place)
        yield _element(text[place:end], places[place], year)
        place = end


def _end_of_element(text: str, begin: int) -> int:
    """Where an element ends: by its length, at the separator, or with the text."""
    gap = text.find(SEPARATOR, begin)
    gap = len(text) if gap < 0 else gap
    fixed = PREDEFINED.get(text[begin : begin + 2])
    return min(gap, begin + fixed) if fixed else gap


def _element(text: str, at: int, year: int) -> Element | Trouble:
    known = identifier_at(text)
    if known is not None:
        return _read_value(known, text[len(known.code) :], at, year)
    if not _digits(text[:2]) or len(text) < 3:
        return Trouble(at, text, "Two digits that say what follows were expected here.")
    return Element(text[:2], "not known here", text[2:], at, known=False)


def _read_value(known: Identifier, value: str, at: int, year: int) -> Element | Trouble:
    """One value against its format, its check digit and the calendar."""
    why = _misfit(known, value)
    if not why and known.code in CHECKED:
        why = _wrong_check(value[: CHECKED[known.code]])
    if why:
        return Trouble(at, f"({known.code}){value}", why)
    if known.code in DATES:
        day = _day(value, year)
        if day is None:
            return Trouble(
                at, f"({known.code}){value}", f"{value} is no date: year, month and day, two digits each."
            )
        return Element(known.code, known.title, value, at, day=day)
    return Element(known.code, known.title, value, at, amount=_amount(known, value))


def _misfit(known: Identifier, value: str) -> str:
    if len(value) > known.most:
        return (
            f"{known.title.capitalize()} takes {known.most} characters at most and {len(value)} stand here. "
            "The separator behind it is missing."
        )
    if len(value) < known.least:
        least = f"{known.least} character{'' if known.least == 1 else 's'}"
        return f"It is cut off: {known.title} has {least} at least, and {len(value)} came with the scan."
    if not known.pattern.fullmatch(value):
        return f"{known.title.capitalize()} takes digits only here."
    return ""


def _amount(known: Identifier, value: str) -> Fraction | None:
    if known.decimals is None:
        return None
    figures = value[3:] if known.stem in ("391", "393") else value
    return Fraction(int(figures or 0), 10**known.decimals)


def _day(value: str, year: int) -> date | None:
    short, month, day = (int(value[place : place + 2]) for place in (0, 2, 4))
    if not 1 <= month <= 12:
        return None
    whole = _whole_year(short, year)
    last = calendar.monthrange(whole, month)[1]
    return date(whole, month, day or last) if day <= last else None


def _whole_year(short: int, year: int) -> int:
    """A year of two digits: 51 to 99 ahead of now belong to the century before, 50 to 99 back to the next."""
    ahead = short - year % 100
    century = year - year % 100
    if ahead >= 51:
        return century - 100 + short
    return century + 100 + short if ahead <= -50 else century + short


def _gathered(found: Iterator[Element | Trouble]) -> Reading:
    """Elements and troubles apart; what stands twice and says two things is a trouble."""
    elements: dict[str, Element] = {}
    troubles = []
    for each in found:
        before = elements.get(each.ai) if isinstance(each, Element) else None
        if isinstance(each, Trouble):
            troubles.append(each)
        elif before is not None and each.known and before.value != each.value:
            troubles.append(
                Trouble(
                    each.at,
                    f"({each.ai}){each.value}",
                    f"{each.title.capitalize()} stands here twice: {before.value} and {each.value}.",
                )
            )
        else:
            elements.setdefault(each.ai if each.known else f"{each.ai} at {each.at}", each)
    return Reading(tuple(elements.values()), tuple(troubles), _doubts(tuple(elements.values())))


def _doubts(elements: tuple[Element, ...]) -> tuple[str, ...]:
    """A batch that ends like a date: scanners lose the separator."""
    says_dates = any(each.ai in ("15", "17") for each in elements)
    return tuple(
        f"The batch {each.value} ends like a date. The separator may be lost: look at the pack."
        for each in elements
        if each.ai == "10" and not says_dates and SWALLOWED.match(each.value)
    )


def _digits(text: str) -> bool:
    return text.isascii() and text.isdigit()


def _no(at: int, text: str, why: str) -> Reading:
    return Reading(troubles=(Trouble(at, text, why),))
