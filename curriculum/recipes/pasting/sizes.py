"""What an amount that was read weighs of one food, in whole milligrams, with whose figure that is.

For the page that shows a pasted line as it was read. A weight is a weight; a volume goes by the
density of the food; a clove, a sprig, a leaf by the weight of one; an egg yolk by what a whole egg
gives; a whole food by its piece. Every figure is said with its source, and where there is none, or
where practice varies, nothing is weighed and a person writes the grams.

Worked example: "3 sprigs thyme" at 0.5 g a sprig are 1.5 g; "1½ cups" of a flour of 0.528 g a ml in
US cups are 354.88 ml, 187.38 g.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from curriculum import wording
from curriculum.foods import egg_sizes, measures, units
from curriculum.foods.data import FoodData
from curriculum.foods.measures import Amount

#: Other words for the same piece.
SAME_PIECE = (
    ("stick", "stalk", "rib", "stem"),
    ("sachet", "packet", "envelope"),
    ("leaf", "sheet"),
    ("tin", "can"),
    ("slice", "rasher"),
    ("head", "bulb"),
    ("block", "pack"),
)
SIZES = ("large", "medium", "small")
#: Teaspoons of a pinch and a dash: one page of units; a city's table gives 1/16 to both (practice varies).
PINCHES = {"pinch": (Fraction(1, 16), Fraction(1, 16)), "dash": (Fraction(1, 16), Fraction(1, 8))}


@dataclass(frozen=True, slots=True)
class Sized:
    """Milligrams from ``least`` to ``most`` (None: nobody knows), or whole pieces, and how it was found.

    ``look`` is what a person should look at although it was weighed.
    """

    least: Fraction | None
    most: Fraction | None
    how: str
    pieces: int | None = None
    look: str = ""


def sized(amount: Amount, said: str, food: FoodData, sources: Mapping[str, str]) -> Sized:
    """What ``amount`` of ``food`` weighs; ``said`` are the words of the line after the amount.

    ``sources`` holds whose figure is "density", "piece" and each named piece of this food.
    """
    if amount.unit.dimension == "mass":
        return Sized(amount.least * amount.unit.size, amount.most * amount.unit.size, "")
    if amount.unit.dimension == "volume":
        return _of_volume(amount, food, sources)
    if amount.unit.dimension == "loose":
        return Sized(None, None, _practice(amount, food))
    return _of_count(amount, said, food, sources)


def _of_volume(amount: Amount, food: FoodData, sources: Mapping[str, str]) -> Sized:
    most = measures.weight_of(amount, food.milligrams_per_ml)
    if most is None:
        return Sized(None, None, f"{food.name} has no density on file, so a volume is no weight.")
    density = wording.figure(Fraction(food.milligrams_per_ml, 1000), 3)
    how = (
        f"{wording.figure(amount.millilitres, 1)} ml at {density} g a ml{_whose(sources.get('density', ''))}."
    )
    return Sized(amount.least * amount.unit.size * food.milligrams_per_ml, most, how)


def _practice(amount: Amount, food: FoodData) -> str:
    """What the tables say of a pinch; the weight is a person's."""
    tables = PINCHES.get(amount.unit.name)
    if tables is None:
        return "This has no size. Write the weight that a bench is given."
    spoons = [f"{part.numerator}/{part.denominator} tsp" for part in dict.fromkeys(tables)]
    grams = ""
    if food.milligrams_per_ml:
        ends = [part * units.US_TEASPOON.size * food.milligrams_per_ml for part in tables]
        grams = f", {wording.figure(ends[0] / 1000, 2)} g"
        if ends[0] != ends[1]:
            grams += f" to {wording.figure(ends[1] / 1000, 2)} g"
        grams += f" of {food.name}"
    return (
        f"A {amount.unit.one} is {' or '.join(spoons)} in tables{grams}; practice varies. Write the weight."
    )


def _of_count(amount: Amount, said: str, food: FoodData, sources: Mapping[str, str]) -> Sized:
    named = _named_piece(amount, said, food)
    if named is not None:
        name, each = named
        return _times(amount, each, f"one {name}", _whose(sources.get(name, "")))
    if amount.unit is not units.PIECE:
        return Sized(None, None, f"What one {amount.unit.one} of {food.name} weighs is not in the book.")
    if food.made_from is not None:
        each = food.made_from.milligrams_per_piece
        found = _times(amount, each, "what one gives", _whose(sources.get("piece", "")))
        return replace(found, look=_egg_size(said, food))
    each = food.edible_piece_milligrams or food.piece_milligrams
    if not each:
        return Sized(None, None, f"What one piece of {food.name} weighs is not in the book.")
    found = _times(amount, each, "one", _whose(sources.get("piece", "")))
    whole = amount.most.denominator == 1 and amount.least == amount.most
    return Sized(
        found.least, found.most, found.how, int(amount.most) if whole else None, _egg_size(said, food)
    )


def _egg_size(said: str, food: FoodData) -> str:
    """What a size said of eggs means: another weight in each country, and not the egg of the book."""
    size = next((size for size in SIZES if size in said.casefold().split()), "")
    if not size or "egg" not in food.contains:
        return ""
    least, most = egg_sizes.class_gives(size)
    here = f"{_g(least.beaten)} to {_g(most.beaten)}" if least.beaten else f"under {_g(most.beaten)}"
    us = _g(egg_sizes.US_EDIBLE_MILLIGRAMS[size])
    return (
        f"An egg that is called {size} gives {here} beaten by {egg_sizes.REGULATION} (88 % of it is eaten),"
        f" {us} in the United States (USDA SR28). The egg of the book is taken; write the weight where"
        " the size matters."
    )


def _g(milligrams: Fraction | int) -> str:
    return f"{wording.figure(Fraction(milligrams) / 1000, 1)} g"


def _named_piece(amount: Amount, said: str, food: FoodData) -> tuple[str, int] | None:
    """The piece of this food that is counted: a clove, or "large", or the food by its own name."""
    weights = dict(food.piece_weights)
    if amount.unit is not units.PIECE:
        alike = next((group for group in SAME_PIECE if amount.unit.one in group), (amount.unit.one,))
        names = [amount.unit.one, *alike]
    else:
        words = said.casefold().split()
        names = [size for size in SIZES if size in words]
        names += [name for name in weights if name in words or f"{name}s" in words or f"{name}es" in words]
        names += ["medium"] if not names else []
    name = next((name for name in names if name in weights), None)
    return None if name is None else (name, weights[name])


def _times(amount: Amount, each: int, what: str, whose: str) -> Sized:
    how = f"{wording.figure(Fraction(each, 1000), 1)} g is {what}{whose}."
    return Sized(amount.least * each, amount.most * each, how)


def _whose(source: str) -> str:
    return f" ({source})" if source else " (no source on file)"


def kept_words(written: str, system: str, of_recipe: str) -> str:
    """The amount as written, where it means the same in the measures of the recipe; else empty."""
    if not written or measures.is_without_size(written) or system == of_recipe:
        return written
    try:
        one = measures.read_amount(written, system or None)
        other = measures.read_amount(written, of_recipe or None)
    except measures.Unreadable:
        return ""
    return written if (one.most, one.unit) == (other.most, other.unit) else ""


def needs_system(written: str) -> bool:
    """Whether an amount means something only in one system of measures."""
    try:
        measures.read_amount(written)
    except measures.Unreadable:
        return not measures.is_without_size(written)
    return False
