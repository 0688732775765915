"""Weights and volumes written back as a cook of that system writes them.

For pages that show a recipe beside the measures it was written in; the grams always
stand beside. Largest unit first, whole numbers of it, the last one in the fractions that
a cup or a scale has: "1 gal 1 qt", "3/4 cup 2 tbsp", "4 lb 5½ oz".

Worked example: 14 tablespoons are 3/4 cup (12) and 2 tbsp; 69.5 oz are 4 lb 5½ oz.
"""

from fractions import Fraction

from curriculum.foods import units
from curriculum.foods.units import Unit

#: Each step: the unit and the smallest part of it that is used (common practice, no source; a
#: published card of 5.60 oz prints 5 1/2 oz).
_LADDERS: dict[tuple[str, str], tuple[tuple[Unit, Fraction], ...]] = {
    ("volume", units.US): (
        (units.US_GALLON, Fraction(1)),
        (units.US_QUART, Fraction(1)),
        (units.US_CUP, Fraction(1, 4)),
        (units.US_TABLESPOON, Fraction(1)),
        (units.US_TEASPOON, Fraction(1, 8)),
    ),
    ("volume", units.IMPERIAL): (
        (units.IMPERIAL_GALLON, Fraction(1)),
        (units.IMPERIAL_PINT, Fraction(1, 4)),
        (units.IMPERIAL_FLUID_OUNCE, Fraction(1)),
        (units.METRIC_TABLESPOON, Fraction(1)),
        (units.METRIC_TEASPOON, Fraction(1, 8)),
    ),
    ("mass", units.US): ((units.POUND, Fraction(1)), (units.OUNCE, Fraction(1, 4))),
    ("mass", units.IMPERIAL): ((units.POUND, Fraction(1)), (units.OUNCE, Fraction(1, 4))),
}
_MARKS = {
    Fraction(1, 2): "½",
    Fraction(1, 4): "¼",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}


def written(size: Fraction, dimension: str, system: str) -> str:
    """A mass in milligrams or a volume in millilitres, in the units of ``system``; "" when it has none.

    Rounded once, to the nearest smallest part of the last unit.
    """
    ladder = _LADDERS.get((dimension, system))
    if ladder is None:
        return ""
    last, part = ladder[-1]
    left = round(size / (last.size * part)) * last.size * part
    words = []
    for unit, least in ladder:
        count = left / unit.size // least * least
        if count:
            words.append(f"{_figure(count)} {unit.one if count <= 1 else unit.many}")
            left -= count * unit.size
    return " ".join(words) or f"0 {last.one}"


def _figure(count: Fraction) -> str:
    whole, part = divmod(count, 1)
    mark = _MARKS.get(part, "")
    return f"{whole}{mark}" if whole or not mark else mark
