"""Figures as cooks write them: "1 1/2", "1½", "1,5", "half a", "two", "one and a half", "2 dozen".

For the reader of amounts. Each function takes a plain text and gives the figure at its beginning
with what is left. "1,500" and "1.500" can be one and a half or fifteen hundred and are handed
back; "0,250" can only be a quarter.

Worked example: "1 1/2 dozen eggs" is 18, and "eggs" is left.
"""

import re
from fractions import Fraction


class Unreadable(ValueError):
    """What was written cannot be read as an amount; the message says why, in a sentence.

    ``rest`` is the text from what is in the way on, where that is known.
    """

    def __init__(self, message: str, rest: str = "") -> None:
        super().__init__(message)
        self.rest = rest


_MIXED = re.compile(r"(\d+) +(\d+) ?/ ?(\d+)(?![\d/])")
_PARTED = re.compile(r"(\d+) ?/ ?(\d+)(?!\d|/\d)")
_DECIMAL = re.compile(r"(?:\d+(?:[.,]\d+)*|[.,]\d+)(?!\d)")
_PARTS = {"half": Fraction(1, 2), "quarter": Fraction(1, 4), "third": Fraction(1, 3)}
_COUNTS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_PART_WORDS = re.compile(r"(?:an? )?(half|quarter|third)(?: of an?| an?)\b", re.I)
_THREE_QUARTERS = re.compile(r"three[ -]quarters?(?: of an?| an?)?\b", re.I)
_COUNT_WORD = re.compile(rf"({'|'.join(_COUNTS)})\b(?!-)", re.I)
_DOZENS = (
    (re.compile(r"half (?:a |an )?dozen\b", re.I), Fraction(6)),
    (re.compile(r"(?:a )?dozen\b", re.I), Fraction(12)),
)
_AND_A_PART = re.compile(r" ?(?:and|&|\+) ?(?:an? (half|quarter|third)\b|(\d+) ?/ ?(\d+)(?!\d))", re.I)
DOZEN = re.compile(r"doz(?:en)?\b\.?", re.I)
#: No amount of a recipe has more figures.
_MOST_FIGURES = 12


def number(text: str) -> tuple[Fraction | None, str]:
    """(number, what is left) at the beginning of a text: "2 dozen" is 24."""
    value, rest = figure(text)
    dozens = DOZEN.match(rest) if value is not None else None
    return (value * 12, rest[dozens.end() :].lstrip()) if dozens else (value, rest)


def figure(text: str) -> tuple[Fraction | None, str]:
    """(figure, what is left); (None, text) when a text begins with none."""
    value, length = _figure(text)
    if value is None:
        return None, text
    rest = text[length:]
    more = _AND_A_PART.match(rest) if value.denominator == 1 else None
    if more:
        part = _PARTS[more[1].lower()] if more[1] else _parted(more[2], more[3], rest)
        if part < 1:
            return value + part, rest[more.end() :].lstrip()
    return value, rest.lstrip()


def _figure(text: str) -> tuple[Fraction | None, int]:
    if found := _MIXED.match(text):
        return _whole(found[1], text) + _part_of_one(found, text), found.end()
    if found := _PARTED.match(text):
        return _parted(found[1], found[2], text), found.end()
    if found := _DECIMAL.match(text):
        return _decimal(found[0], text), found.end()
    return _in_words(text)


def _in_words(text: str) -> tuple[Fraction | None, int]:
    for pattern, value in _DOZENS:
        if found := pattern.match(text):
            return value, found.end()
    if found := _PART_WORDS.match(text):
        return _PARTS[found[1].lower()], found.end()
    if found := _THREE_QUARTERS.match(text):
        return Fraction(3, 4), found.end()
    if found := _COUNT_WORD.match(text):
        return Fraction(_COUNTS.index(found[1].lower()) + 1), found.end()
    return None, 0


def _part_of_one(found: re.Match, text: str) -> Fraction:
    part = _parted(found[2], found[3], text)
    if part >= 1:
        raise Unreadable(f"“{found[0]}” is no whole and a part. Write one figure, such as 1 1/2.", text)
    return part


def _parted(above: str, below: str, text: str) -> Fraction:
    top, bottom = _whole(above, text), _whole(below, text)
    if bottom == 0:
        raise Unreadable(f"“{above}/{below}” divides by nothing. Write a fraction such as 1/2.", text)
    return top / bottom


def _whole(digits: str, text: str) -> Fraction:
    if len(digits) > _MOST_FIGURES:
        raise Unreadable(f"“{digits[:20]}” is too long for an amount.", text)
    return Fraction(int(digits))


def _decimal(written: str, text: str) -> Fraction:
    """ "1,5" and "1.5" are one and a half; "1,500" and "1.500" could be either."""
    if len(written) > _MOST_FIGURES:
        raise Unreadable(f"“{written[:20]}” is too long for an amount.", text)
    signs = [letter for letter in written if letter in ".,"]
    if not signs:
        return Fraction(int(written))
    whole, *_, tail = re.split(r"[.,]", written)
    thousands = len(tail) == 3 and whole.strip("0") and len(whole) <= 3
    if len(signs) > 1 or thousands:
        raise Unreadable(
            f"“{written}” can be read in two ways. Write 1500 for fifteen hundred, 1.5 for one and a half.",
            text,
        )
    return Fraction(int(whole or "0")) + Fraction(int(tail), 10 ** len(tail))
