"""Amounts written back as a cook writes them, in the measures the recipe was written in.

For recipe sheets, the page of a larger or smaller batch, and what is sent elsewhere; the grams
always stand beside. Spoons stay spoons and pounds stay pounds: the words come from the measure
that the writer used, largest unit first, the last one in the fractions that a cup or a scale
has: "1 gal 1 qt", "¾ cup 2 tbsp", "4 lb 5½ oz". An amount that these fractions can say is said
exactly; any other is said in as few units as are within one per cent of it.

Worked example: 7/16 cup twice is 14 tablespoons, "¾ cup 2 tbsp". 1.25 lb at a factor of 3.48 is
4.35 lb = 4 lb 5.6 oz, and a quarter of an ounce is the least a scale of ounces shows: "4 lb 5½ oz".
"""

from fractions import Fraction

from curriculum.foods import units
from curriculum.foods.measures import Amount, Unreadable, is_without_size, read_amount
from curriculum.foods.units import Unit

#: How far words with fewer units may be from an amount that no fraction of a cup or a scale says.
NEAR_ENOUGH = Fraction(1, 100)
Ladder = tuple[tuple[Unit, Fraction], ...]
_QUARTERS, _EIGHTHS = Fraction(1, 4), Fraction(1, 8)
_SPOONS = ((units.METRIC_TABLESPOON, Fraction(1)), (units.METRIC_TEASPOON, _EIGHTHS))
_POUNDS = ((units.POUND, Fraction(1)), (units.OUNCE, _QUARTERS))
_US = (
    (units.US_GALLON, Fraction(1)),
    (units.US_QUART, Fraction(1)),
    (units.US_CUP, _QUARTERS),
    (units.US_TABLESPOON, Fraction(1)),
    (units.US_TEASPOON, _EIGHTHS),
)
_IMPERIAL = (
    (units.IMPERIAL_GALLON, Fraction(1)),
    (units.IMPERIAL_PINT, _QUARTERS),
    (units.IMPERIAL_FLUID_OUNCE, _EIGHTHS),
)
_AUSTRALIAN = (
    (units.METRIC_CUP, _QUARTERS),
    (units.AUSTRALIAN_TABLESPOON, Fraction(1)),
    (units.METRIC_TEASPOON, _EIGHTHS),
)
_AUSTRALIAN_SPOONS = _AUSTRALIAN[1:]
_METRIC_CUPS = ((units.METRIC_CUP, _QUARTERS), *_SPOONS)
#: Each step: the unit and the smallest part of it that is used (common practice, no source; a
#: published card of 5.60 oz prints 5 1/2 oz).
_LADDERS: dict[tuple[str, str], Ladder] = {
    ("volume", units.US): _US,
    ("volume", units.IMPERIAL): _IMPERIAL,
    ("volume", units.METRIC): _METRIC_CUPS,
    ("volume", units.AUSTRALIAN): _AUSTRALIAN,
    ("mass", units.US): _POUNDS,
    ("mass", units.IMPERIAL): _POUNDS,
}
#: The ladder of the measure that the writer used, where that is not the whole ladder of the system.
_OWN: dict[str, Ladder] = {
    "stick": ((units.STICK, _EIGHTHS),),
    "metric_teaspoon": _SPOONS,
    "metric_tablespoon": _SPOONS,
    "metric_dessertspoon": ((units.METRIC_DESSERTSPOON, _EIGHTHS),),
    "imperial_cup": ((units.IMPERIAL_CUP, _EIGHTHS),),
    "ounce": _POUNDS,
    "pound": _POUNDS,
}
#: Metric amounts have decimals: the large and the small unit.
_DECIMAL: dict[str, tuple[Unit, Unit]] = {
    "mass": (units.KILOGRAM, units.GRAM),
    "volume": (units.LITRE, units.MILLILITRE),
}
_METRIC = frozenset(
    ("gram", "kilogram", "milligram", "millilitre", "centilitre", "decilitre", "litre"),
)
#: More than this is measured in a jug and not in metric spoons (common practice, no source).
_MOST_IN_SPOONS = 120
#: Up to so many both ends of a range stay in one measure: "4 to 6 cups" (common practice, no source).
_MOST_OF_ONE = 12
#: Under ten of the small unit a tenth of it is still shown.
_TENTHS_BELOW = 10
#: From ten of the large unit on the small one goes in tens.
_TENS_FROM = 10_000
_THIRDS = frozenset((Fraction(1, 3), Fraction(2, 3)))
_CUPS = frozenset((units.US_CUP, units.METRIC_CUP, units.IMPERIAL_CUP))
_MARKS = {
    Fraction(1, 2): "½",
    Fraction(1, 3): "⅓",
    Fraction(2, 3): "⅔",
    Fraction(1, 4): "¼",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}


def scaled_words(written: str, system: str, factor: Fraction | int) -> str | None:
    """The amount in ``written`` times ``factor``, as a cook writes it; None when it cannot be said.

    ``system`` is the one that the recipe is written in (see ``foods.units``; empty: none said).
    None for words that cannot be read, for a factor that is not above nothing, and for an amount
    too small for any spoon or scale. "to taste" stays as it is.
    """
    if is_without_size(written):
        return " ".join(written.split())
    try:
        amount = read_amount(written, system or None)
    except Unreadable:
        return None
    return amount_words(amount, system, Fraction(factor))


def amount_words(amount: Amount, system: str, factor: Fraction | int = 1) -> str | None:
    """An amount that was read, times ``factor``, in words; None when it cannot be said."""
    if factor <= 0:
        return None
    times = amount.times * Fraction(factor)
    if amount.times > 1 and times.denominator == 1:
        each = _one(amount.most / amount.times, amount.unit, system)
        return each and f"{times} x {each}"
    if amount.least != amount.most and _few(amount.most * factor) and _few(amount.least * factor):
        ends = [_counted(end * factor, amount.unit) for end in (amount.least, amount.most)]
        return _from_to(*ends)
    least = _one(amount.least * factor, amount.unit, system)
    most = _one(amount.most * factor, amount.unit, system)
    if not least or not most:
        return None
    return most if least == most else _from_to(least, most)


def written(size: Fraction, dimension: str, system: str) -> str:
    """A mass in milligrams or a volume in millilitres, in the units of ``system``; "" when it has none."""
    ladder = _LADDERS.get((dimension, system))
    return "" if ladder is None else _climbed(size, ladder) or f"0 {ladder[-1][0].one}"


def _from_to(least: str, most: str) -> str:
    """ "4 to 6 cups": the unit once when both ends have the same one, else both whole."""
    figure, _, unit = most.partition(" ")
    first, _, first_unit = least.partition(" ")
    same = unit and (first_unit == unit or first_unit + "s" == unit or first_unit + "es" == unit)
    return f"{first} to {figure} {unit}" if same else f"{least} to {most}"


def _one(count: Fraction, unit: Unit, system: str) -> str | None:
    if unit.dimension not in ("mass", "volume"):
        return _counted(count, unit)
    if unit.name in _METRIC:
        return _with_decimals(count * unit.size, unit.dimension)
    size = count * unit.size
    ladder = _ladder(unit, system)
    if ladder in (_SPOONS, _AUSTRALIAN_SPOONS) and size > _MOST_IN_SPOONS:
        return _with_decimals(size, unit.dimension)
    return _climbed(size, ladder) if ladder else None


def _ladder(unit: Unit, system: str) -> Ladder | None:
    own = _OWN.get(unit.name)
    if system == units.AUSTRALIAN and (own is _SPOONS or unit is units.AUSTRALIAN_TABLESPOON):
        return _AUSTRALIAN_SPOONS
    return own or _LADDERS.get((unit.dimension, system))


def _counted(count: Fraction, unit: Unit) -> str | None:
    """ "6 cloves", "1½ bunches"; a part that no mark says goes to the nearest quarter."""
    said = count if _marked(count) else round(count * 4) / Fraction(4)
    if not said:
        return None
    figure = _figure(said)
    return figure if unit is units.PIECE else f"{figure} {unit.one if said <= 1 else unit.many}"


def _with_decimals(size: Fraction, dimension: str) -> str | None:
    """ "1.25 kg", "1255 g", "250 g", "2.5 g": never three decimals, which read as thousands."""
    large, small = _DECIMAL[dimension]
    step = Fraction(1) if size >= _TENTHS_BELOW * small.size else Fraction(1, 10)
    step = Fraction(10) if size >= _TENS_FROM * small.size else step
    count = round(size / small.size / step) * step
    if count >= 1000 and count % 10 == 0:
        return f"{_decimal(count * small.size / large.size)} {large.one}"
    return f"{_decimal(count)} {small.one}" if count else None


def _decimal(count: Fraction) -> str:
    whole, part = divmod(round(count * 100), 100)
    return f"{whole}.{part:02d}".rstrip("0").rstrip(".")


def _climbed(size: Fraction, ladder: Ladder) -> str | None:
    """``size`` in the units of a ladder; "" when it is less than half of the smallest part."""
    exact = _steps(size, ladder)
    if exact is not None:
        return _said(exact)
    for depth in range(1, len(ladder) + 1):
        rounded = _rounded(size, ladder[:depth])
        steps = _steps(rounded, ladder[:depth])
        if steps and (depth == len(ladder) or abs(rounded - size) <= size * NEAR_ENOUGH):
            return _said(steps)
    return ""


def _rounded(size: Fraction, ladder: Ladder) -> Fraction:
    last, part = ladder[-1]
    return round(size / (last.size * part)) * last.size * part


def _steps(size: Fraction, ladder: Ladder) -> tuple[tuple[Fraction, Unit], ...] | None:
    """(count, unit) from large to small that make up ``size``; None when something is left."""
    found = []
    for unit, part in ladder:
        count = size / unit.size
        thirds = unit in _CUPS and count % 1 in _THIRDS
        count = count if thirds else count // part * part
        if count:
            found.append((count, unit))
            size -= count * unit.size
    return None if size else tuple(found)


def _said(steps: tuple[tuple[Fraction, Unit], ...]) -> str:
    return " ".join(f"{_figure(count)} {unit.one if count <= 1 else unit.many}" for count, unit in steps)


def _few(count: Fraction) -> bool:
    """Whether both ends of a range can stay in the measure they were written in."""
    return _marked(count) and count <= _MOST_OF_ONE


def _marked(count: Fraction) -> bool:
    return count.denominator == 1 or count % 1 in _MARKS


def _figure(count: Fraction) -> str:
    whole, part = divmod(count, 1)
    mark = _MARKS.get(part, "")
    return f"{whole}{mark}" if whole or not mark else mark
