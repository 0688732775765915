"""Tins, rings and moulds: the area that a paste lines, the volume that a filling fills.

For scaling. A change of tin changes the paste by the area lined and the filling by the
volume filled, so one change of tin gives the right paste *and* the right filling. Baking
time is never scaled: the change of depth is stated, the cue and the probe stay.

Area lined = base + wall + overhang, with the wall and the overhang as strips along the
rim: base + rim x (depth + overhang); a ring with a hole has its inner wall lined as well,
hole x pi x depth. A fluted tin is reckoned as a round one of its diameter: the flutes
lengthen the walls of two such tins alike and fall out of their ratio (common practice, no
source). Volume filled = base x depth, measured *inside* the paste (rim and depth less its
thickness) or *outside* it; which of the two is always said.

Worked example: a round tin of 24 cm by 3 cm with 1 cm overhang has a base of 144 pi cm2
and a rim of 24 pi cm, so 144 pi + 24 pi x 4 = 240 pi cm2 are lined. At 20 cm it is 180 pi:
the paste is made three quarters as large. The filling, measured outside, is
(20 / 24)^2 = 0.694 as large; inside a paste of 3 mm it is (19.4 / 23.4)^2 = 0.687.

All lengths in millimetres, exact. Pi is one fraction with 30 decimals, so that it falls
out of every ratio of round tins. Source: geometry.
"""

from dataclasses import replace
from fractions import Fraction

from curriculum.errors import RuleBroken
from curriculum.recipes.data import TinData

PI = Fraction(3141592653589793238462643383280, 10**30)
STRAIGHT_SHAPES = frozenset(("square", "rectangular", "loaf", "sheet"))
SHAPE_WORDS = {
    "round": "round tin",
    "fluted": "fluted tin",
    "ring": "ring",
    "dariole": "dariole mould",
    "cavity": "mould",
    "square": "square tin",
    "rectangular": "rectangular tin",
    "loaf": "loaf tin",
    "sheet": "sheet",
}
#: A square is taken for a round tin when its area lies within these bounds of it. The bounds
#: are those of six pairs that several charts print alike (15=13 to 30=28 cm); a row that
#: charts also print, 18 cm round for 12.5 cm square, holds 39 % less and falls outside.
LEAST_SAME_SIZE = Fraction(95, 100)
MOST_SAME_SIZE = Fraction(111, 100)


def base_area(tin: TinData) -> Fraction:
    """Square millimetres of the base, as its outside measures say. RuleBroken without measures.

    A ring with a ``width_mm`` has a hole of that diameter in its middle, smaller than the ring.
    """
    if tin.shape in STRAIGHT_SHAPES:
        length = _measure(tin, tin.length_mm, "length")
        return length * (length if tin.shape == "square" else _measure(tin, tin.width_mm, "width"))
    diameter = _measure(tin, tin.diameter_mm, "diameter")
    hole = _hole(tin)
    if hole >= diameter:
        raise RuleBroken(
            "hole_in_the_ring", f"The hole of the {words(tin)} is as wide as the ring. Write a smaller width."
        )
    return PI * (diameter**2 - hole**2) / 4


def rim(tin: TinData) -> Fraction:
    """Millimetres round the outer rim. RuleBroken without measures."""
    if tin.shape in STRAIGHT_SHAPES:
        length = _measure(tin, tin.length_mm, "length")
        width = length if tin.shape == "square" else _measure(tin, tin.width_mm, "width")
        return 2 * (length + width)
    return PI * _measure(tin, tin.diameter_mm, "diameter")


def lined_area(tin: TinData) -> Fraction:
    """Square millimetres of paste for one tin: base, wall and overhang. RuleBroken without measures."""
    depth = _measure(tin, tin.depth_mm, "depth")
    return base_area(tin) + rim(tin) * (depth + tin.overhang_mm) + PI * _hole(tin) * depth


def filled_volume(tin: TinData, inside: bool = True, part: Fraction = Fraction(1)) -> Fraction:
    """Cubic millimetres of filling for one tin, filled to ``part`` of its depth.

    ``inside`` measures within the paste that lines it; a tin of a stated volume
    (a dariole of 100 ml) is that volume. RuleBroken without measures.
    """
    if tin.volume_ml is not None:
        return tin.volume_ml * 1000 * part
    depth = _measure(tin, tin.depth_mm, "depth") - (_thickness(tin) if inside else 0)
    outside = base_area(tin)
    if depth <= 0:
        raise RuleBroken("tin_is_all_paste", f"The paste is thicker than the {words(tin)} is deep.")
    if inside and 2 * _thickness(tin) >= _narrowest(tin):
        raise RuleBroken("tin_is_all_paste", f"The paste of both walls is as wide as the {words(tin)}.")
    return (base_area(_within_paste(tin)) if inside else outside) * depth * part


def lining_factor(old: TinData, new: TinData) -> Fraction:
    """How much larger the paste is for all the new tins than for all the old ones."""
    return lined_area(new) * new.count / (lined_area(old) * old.count)


def filling_factor(old: TinData, new: TinData, inside: bool = True) -> Fraction:
    """How much larger the filling is for all the new tins than for all the old ones, filled alike."""
    return filled_volume(new, inside) * new.count / (filled_volume(old, inside) * old.count)


def same_depth_factor(old: TinData, new: TinData) -> Fraction:
    """The ratio of the bases: the common rule, true only while the depth stays."""
    return base_area(new) / base_area(old)


def square_for_round(diameter_mm: int, side_mm: Fraction | int) -> Fraction:
    """How much a square tin holds beside a round one of the same depth, as a ratio of the bases."""
    return Fraction(side_mm) ** 2 / (PI * Fraction(diameter_mm) ** 2 / 4)


def is_same_size(ratio: Fraction) -> bool:
    """Whether one tin may stand for another without changing the recipe (see the bounds above)."""
    return LEAST_SAME_SIZE <= ratio <= MOST_SAME_SIZE


def depth_words(old: TinData, new: TinData) -> str:
    """What a change of depth means for baking, in words; empty while the depth stays."""
    if old.depth_mm is None or new.depth_mm is None or old.depth_mm == new.depth_mm:
        return ""
    way = "deeper" if new.depth_mm > old.depth_mm else "shallower"
    return (
        f"The {words(new)} is {new.depth_mm} mm deep, {way} than {old.depth_mm} mm. "
        "The baking time changes with it and is not calculated: watch the cue and the probe."
    )


def words(tin: TinData) -> str:
    """A tin as it is spoken of: "round tin of 24 cm"."""
    name = SHAPE_WORDS.get(tin.shape, tin.shape)
    if tin.volume_ml is not None:
        return f"{name} of {tin.volume_ml} ml"
    across = tin.diameter_mm if tin.diameter_mm is not None else tin.length_mm
    return name if across is None else f"{name} of {_centimetres(across)} cm"


def _centimetres(millimetres: int) -> str:
    whole, rest = divmod(millimetres, 10)
    return f"{whole}.{rest}" if rest else str(whole)


def _thickness(tin: TinData) -> Fraction:
    """Millimetres of paste on the wall; nothing when the tin is not lined."""
    if tin.lined_with is None or tin.paste_thickness_tenths_mm is None:
        return Fraction(0)
    return Fraction(tin.paste_thickness_tenths_mm, 10)


def _hole(tin: TinData) -> Fraction:
    """Millimetres across the hole of a ring; nothing where there is none."""
    return Fraction(tin.width_mm or 0) if tin.shape == "ring" else Fraction(0)


def _narrowest(tin: TinData) -> Fraction:
    """Millimetres between the two walls that are nearest to each other."""
    if tin.shape not in STRAIGHT_SHAPES:
        return (Fraction(tin.diameter_mm or 0) - _hole(tin)) / (2 if _hole(tin) else 1)
    sides = (tin.length_mm,) if tin.shape == "square" else (tin.length_mm, tin.width_mm)
    return Fraction(min(side for side in sides if side))


def _within_paste(tin: TinData) -> TinData:
    both = 2 * _thickness(tin)
    less = {
        name: getattr(tin, name) - both
        for name in ("diameter_mm", "length_mm", "width_mm")
        if getattr(tin, name) is not None
    }
    if tin.shape == "ring" and tin.width_mm is not None:
        less["width_mm"] = tin.width_mm + both
    return replace(tin, **less)


def _measure(tin: TinData, value: int | Fraction | None, name: str) -> Fraction:
    if value is None or value <= 0:
        raise RuleBroken(
            "tin_without_measure",
            f"The {words(tin)} has no {name}. Write its {name} in millimetres, or its volume in millilitres.",
            tin=tin.kind,
            measure=name,
        )
    return Fraction(value)
