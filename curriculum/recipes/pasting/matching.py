"""Which food of the book a pasted line means, and what its amount weighs.

A food is meant when every word of the line stands in its name or the other way round;
the name with the fewest other words wins, and a draw is left to a person. Words are
compared without case, marks over letters and plural.

Worked example: "plain flour" finds nothing in a book of "Soft wheat flour" and "Strong
white wheat flour" (two hold "flour", neither "plain"), so a person chooses; "unsalted
butter" finds "Unsalted butter"; "2 eggs" finds "Hen egg in shell, medium", which is counted, and
not the yolk by weight.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.foods import measures
from curriculum.foods.data import FoodData
from curriculum.foods.measures import LineRead
from curriculum.recipes.search import wanted_words


@dataclass(frozen=True, slots=True)
class Proposal:
    """What a pasted line is taken for, for a person to look at. ``trouble`` says what is missing."""

    text: str
    food: str | None
    milligrams: int | None
    pieces: int | None
    note: str
    trouble: str


def propose(read: LineRead, foods: Iterable[FoodData]) -> Proposal:
    """The proposal of one line that was read."""
    counted = read.amount is not None and read.amount.unit.dimension == "count"
    food = meant(read.food, foods, counted=counted)
    milligrams, pieces = _size(read, food)
    return Proposal(
        read.text,
        food.code if food else None,
        milligrams,
        pieces,
        read.note if food else "; ".join(part for part in (read.food, read.note) if part),
        read.trouble or _missing(read, food, milligrams, pieces),
    )


def meant(words: str, foods: Iterable[FoodData], *, counted: bool = False) -> FoodData | None:
    """The one food that these words mean; None when there is none, or more than one alike.

    What is ``counted`` means a food that is counted in pieces, if there is one.
    """
    wanted = _words(words)
    if not wanted:
        return None
    ranked = []
    for food in foods:
        name = _words(food.name)
        if wanted <= name or name <= wanted:
            ranked.append((len(name ^ wanted), food))
    ranked = [pair for pair in ranked if counted and pair[1].counted_in == "pieces"] or ranked
    ranked.sort(key=lambda pair: pair[0])
    if not ranked or (len(ranked) > 1 and ranked[0][0] == ranked[1][0]):
        return None
    return ranked[0][1]


def _words(text: str) -> frozenset[str]:
    return frozenset(
        word[:-1] if len(word) > 3 and word.endswith("s") else word for word in wanted_words(text)
    )


def _size(read: LineRead, food: FoodData | None) -> tuple[int | None, int | None]:
    if read.amount is None or food is None:
        return _plain_weight(read), None
    weight = measures.weight_of(read.amount, food.milligrams_per_ml)
    if weight is not None:
        return round(weight), None
    whole = read.amount.unit.dimension == "count" and read.amount.most.denominator == 1
    return None, int(read.amount.most) if whole and food.piece_milligrams else None


def _plain_weight(read: LineRead) -> int | None:
    weight = None if read.amount is None else read.amount.milligrams
    return None if weight is None else round(weight)


def _missing(read: LineRead, food: FoodData | None, milligrams: int | None, pieces: int | None) -> str:
    if food is None or read.amount is None:
        return f"“{read.food}” is not one food of the book. Choose the food."
    if milligrams is None and pieces is None:
        if read.amount.unit.dimension == "volume":
            return f"{food.name} has no density on file, so a volume is no weight. Write the weight."
        return f"This is no weight of {food.name}. Write the weight."
    if read.amount.least != read.amount.most:
        return "A range: the larger amount is taken. Its ends can be written at the line."
    return ""
