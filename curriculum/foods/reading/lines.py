"""One ingredient line parted into amount, food and note, or handed back with what is in its way.

For pasting and for everything that takes lines from elsewhere. A line is understood whole or
not at all: a figure or a measure that is left over in the name of the food means that the amount
was read too short, and the line is handed back with the place of what was not understood.

Worked example: "- about 2 large cloves garlic (crushed)" is two cloves of "garlic" with the note
"about; large; crushed". In "1 cup plain flour" without a system, places 0 to 5 are in the way.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import units
from curriculum.foods.reading.amounts import Amount, begun
from curriculum.foods.reading.figures import Unreadable
from curriculum.foods.reading.plain import Plain, hidden_sign, plain
from curriculum.foods.reading.words import MEASURE_WORDS

#: A line of a recipe is shorter; longer text is no ingredient line.
LONGEST_LINE = 300


@dataclass(frozen=True, slots=True)
class LineRead:
    """What was read of one line. ``trouble`` is empty when all of it was understood.

    ``begins`` and ``ends`` are places in ``text``: of the amount, or of what is in the way when
    there is a trouble. ``written`` is the amount as it was typed.
    """

    text: str
    amount: Amount | None
    food: str
    note: str = ""
    trouble: str = ""
    begins: int = 0
    ends: int = 0
    written: str = ""


_BULLET = re.compile(r"^(?:[-*•·–—▢□☐]\s+)")
_ABOUT = re.compile(r"^(?:about|approx(?:\.|imately\b)?|roughly|around|circa|ca\.|~) ?(?=\S)", re.I)
#: A figure and a measure that were not understood; what comes after them may still be a food.
_BEGINNING = re.compile(r"^[-\d\s/.,–]+(?:[^\W\d_]+\.?\s+(?:of\s+)?)?")
_LOOSE = re.compile(
    r"\b(?:to taste|as needed|as required|for dusting|for greasing|for frying|to serve|to garnish)\b", re.I
)
_OF_AT_END = re.compile(r"\s+(?:of|x|×)\s*$|(?<=[\d½¼¾⅓⅔⅛⅜])\s+(?:an?|the)\s*$", re.I)
_PART_OF = re.compile(
    r"^(?:the )?(?:(?:finely )?grated )?(juice|zest|rind) (?:of|from) "
    r"(?=\d|an? |half|one |two |three )",
    re.I,
)
_NOT_A_NAME = re.compile(r"^[^\w(]|^(?:[\d_]|x ?\d)|^(?:and|plus|minus|less|or|to|more|per|each)\b", re.I)
_GOES_ON = re.compile(r"(?:\b(?:and|plus|or|minus|x)|[+&×/*]) ?\d", re.I)
#: Figures that belong to a name: "70% chocolate", "00 flour".
_NAME_FIGURES = re.compile(r"^(?:\d{1,3}(?:[.,]\d)? ?%|00)(?= )")
_MEASURES = "|".join(sorted(MEASURE_WORDS | frozenset(units.COUNTED), key=len, reverse=True))
_FIGURE_AND_MEASURE = re.compile(rf"\d ?(?:{_MEASURES})\b", re.I)
_NO_NAMES = sorted(MEASURE_WORDS | frozenset(units.NOT_A_MEASURE), key=len, reverse=True)
_MEASURE_AMONG = re.compile(rf"(?<!['’])\b(?:{'|'.join(_NO_NAMES)})\b", re.I)


def is_without_size(text: str) -> bool:
    """Whether a text says nothing but "to taste", "as needed" or the like."""
    return _LOOSE.fullmatch(" ".join(text[:LONGEST_LINE].split())) is not None


def read_amount(text: str, system: str | None = None) -> Amount:
    """The whole text as an amount. Unreadable when it is none, or something is left over."""
    if len(text) > LONGEST_LINE:
        raise Unreadable(f"This has more than {LONGEST_LINE} letters. Write only the amount.")
    _demand_seen(text)
    whole = plain(text).text
    amount, rest = begun(whole, system)
    if amount is None:
        raise Unreadable(f"“{text.strip()}” begins with no amount. Write one, such as 250 g.", whole)
    if rest:
        raise Unreadable(f"“{rest}” is left over after the amount. Write only the amount.", rest)
    return amount


def read_line(text: str, system: str | None = None) -> LineRead:
    """One ingredient line: amount, food, note. What is in the way is named in ``trouble``."""
    if len(text) > LONGEST_LINE:
        why = f"This line has more than {LONGEST_LINE} letters. Write a shorter one."
        return LineRead(text, None, "", "", why, 0, len(text))
    try:
        _demand_seen(text)
    except Unreadable as error:
        place = hidden_sign(text) or 0
        return LineRead(text, None, "", "", str(error), place, place + 1)
    return _Reading(text, plain(text), system).line()


def read_lines(text: str, system: str | None = None) -> list[LineRead]:
    """Every line that is not empty, each read on its own."""
    return [read_line(line, system) for line in text.splitlines() if line.strip()]


def _demand_seen(text: str) -> None:
    place = hidden_sign(text)
    if place is not None:
        raise Unreadable(
            f"Letter {place + 1} is a sign that cannot be seen and may hide something. Write the line anew."
        )


class _Reading:
    """One line while it is read: what was typed, the plain text, and what was taken off its beginning."""

    def __init__(self, text: str, whole: Plain, system: str | None) -> None:
        self.text, self.whole, self.system = text, whole, system
        self.notes: list[str] = []
        self.part = ""

    def line(self) -> LineRead:
        start = self._off(_BULLET, self.whole.text)
        if about := _ABOUT.match(start):
            self.notes.append("about")
            start = start[about.end() :]
        if part := _PART_OF.match(start):
            self.part = part[1].lower()
            start = start[part.end() :]
        try:
            amount, rest = begun(start, self.system)
        except Unreadable as error:
            return self._in_the_way(start, error)
        if amount is None:
            return self._without_amount(start)
        return self._understood(start, amount, rest)

    @staticmethod
    def _off(pattern: re.Pattern, text: str) -> str:
        found = pattern.match(text)
        return text[found.end() :] if found else text

    def _in_the_way(self, start: str, error: Unreadable) -> LineRead:
        rest = error.rest if error.rest and start.endswith(error.rest) else start
        after = _FIRST_AMOUNT.sub("", rest) if rest == start else _FIRST_WORD.sub("", rest)
        food, note = _food_and_note(_BEGINNING.sub("", start) if rest == start else after)
        begins, ends = self.whole.place(rest), max(self.whole.end_before(after), self.whole.place(rest) + 1)
        return LineRead(self.text, None, food, self._note(note), str(error), begins, ends)

    def _without_amount(self, start: str) -> LineRead:
        amount, food, note = _loose(*_food_and_note(start))
        begins, ends = self.whole.place(start), self.whole.end_before("")
        if amount is None:
            why = "No amount is at the beginning. Write it first, or “to taste” behind the food."
            return LineRead(self.text, None, food, self._note(note), why, begins, ends)
        found = _LOOSE.search(self.text)
        begins, ends = found.span() if found else (begins, ends)
        why = "" if food else "No food is named."
        said = self.text[begins:ends]
        return LineRead(self.text, amount, food, self._note(note), why, begins, ends, said)

    def _understood(self, start: str, amount: Amount, rest: str) -> LineRead:
        if amount.sized:
            self.notes.append(amount.sized.lower())
        food, note = _food_and_note(rest)
        why = _trouble_with(food, amount) or _another_amount(rest)
        begins, ends = self.whole.place(start), self.whole.end_before(rest)
        said = _OF_AT_END.sub("", self.text[begins:ends])
        ends = begins + len(said)
        if why:
            begins, ends = (self.whole.place(rest), self.whole.end_before("")) if rest else (begins, ends)
        food = f"{food} {self.part}".strip() if self.part else food
        return LineRead(self.text, amount, food, self._note(note), why, begins, max(ends, begins), said)

    def _note(self, note: str) -> str:
        return "; ".join(part for part in (*self.notes, note) if part)


_FIRST_AMOUNT = re.compile(r"^[-\d\s/.,–]*(?:[^\W\d_]+\.?)?\s*")
_FIRST_WORD = re.compile(r"^(?:fl(?:uid)?\.? ?(?:ozs?|ounces?)\.?|\S+)\s*(?:of\s+)?", re.I)


def _trouble_with(food: str, amount: Amount) -> str:
    """Why what is left after the amount cannot be a food; empty when it can."""
    if not food:
        return "No food is named after the amount."
    name = _NAME_FIGURES.sub("", food).strip() if amount.unit is not units.PIECE else food
    goes_on = _NOT_A_NAME.match(name) or _GOES_ON.search(name) or _FIGURE_AND_MEASURE.search(name)
    if goes_on or not any(map(str.isalpha, name)):
        return f"“{food}” goes on with another figure or sign. Write one amount, such as 2 x 400 g."
    if amount.unit is units.PIECE:
        if any(letter.isdigit() for letter in name):
            return f"“{food}” has a figure in it. Write one amount and then the food."
        if among := _MEASURE_AMONG.search(name):
            return f"“{food}” holds the measure “{among[0]}”. Write the measure behind the figure."
    return ""


def _another_amount(rest: str) -> str:
    """ "butter, 50 g sugar": two foods on one line; a note in brackets may begin with a figure."""
    tail = re.sub(r"\([^()]*\)", " ", rest).partition(",")[2].strip()
    if not tail[:1].isdigit():
        return ""
    return f"“{tail}” looks like another amount. Write each food on a line of its own."


def _food_and_note(text: str) -> tuple[str, str]:
    """ "plain flour, sifted" and "butter (softened)" parted into food and note."""
    notes = re.findall(r"\(([^()]*)\)", text)
    bare = " ".join(re.sub(r"\([^()]*\)", " ", text).split())
    food, _, tail = bare.partition(",")
    return food.strip(" .;:"), "; ".join(part for part in [tail.strip(" .;:"), *notes] if part)


def _loose(food: str, note: str) -> tuple[Amount | None, str, str]:
    """ "salt, to taste" and "flour for dusting": an amount without a size."""
    said = f"{food}; {note}" if note else food
    found = _LOOSE.search(said)
    if found is None or any(letter.isdigit() for letter in said):
        return None, food, note
    bare = _LOOSE.sub("", food).strip(" ,;")
    kept = [part for part in re.split(r"; ", note) if part and _LOOSE.search(part) is None]
    return Amount(Fraction(1), Fraction(1), units.SOME), bare, "; ".join([found[0].lower(), *kept])
