"""Amounts as cooks write them, read and converted; the only door to pint.

For pasting ingredient lines and for forms. Our own grammar (``reading``) reads the words: pint
never sees what a person typed (it reads "1 1/2 cup" as half a cup, "1½ cup" as one and "pinch"
as a length). pint converts between named units, in a closed registry of our own with exact
fractions, built once when this file is imported and never changed; no contexts.

What is read: ``250g``, ``1 1/2 cups``, ``1½ cup``, ``1,5 l``, ``2-3``, ``1 lb 3 oz``,
``2 x 400 g``, ``a pinch``, ``half a lemon``, ``6 eggs``, ``to taste`` and more (see ``reading``). What
cannot be read is handed back with a sentence that says why and the place where it stands, never a
guess: a cup without a system, a letter that stands for two spoons, a range that goes down, "1.500".

Worked example: "1 lb 3 oz plain flour, sifted" is 19 ounces = 538,640.94 mg exactly
(538.64 g), of "plain flour", with the note "sifted".
"""

from fractions import Fraction

import pint

from curriculum.foods import units
from curriculum.foods.reading.amounts import Amount
from curriculum.foods.reading.figures import Unreadable
from curriculum.foods.reading.lines import (
    LONGEST_LINE,
    LineRead,
    is_without_size,
    read_amount,
    read_line,
    read_lines,
)
from curriculum.foods.reading.systems import systems_for, words_that_differ
from curriculum.foods.units import Unit

__all__ = [
    "LONGEST_LINE",
    "Amount",
    "LineRead",
    "Unreadable",
    "convert",
    "is_without_size",
    "read_amount",
    "read_line",
    "read_lines",
    "systems_for",
    "weight_of",
    "words_that_differ",
]

_REGISTRY = pint.UnitRegistry(None, non_int_type=Fraction)
for _words in ("milligram = [mass]", "millilitre = [volume]", "piece = [piece]"):
    _REGISTRY.define(_words)
for _measure in units.MEASURES:
    if _measure.name not in ("milligram", "millilitre"):
        _base = "milligram" if _measure.dimension == "mass" else "millilitre"
        _REGISTRY.define(
            f"{_measure.name} = {_measure.size.numerator} / {_measure.size.denominator} * {_base}"
        )


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
