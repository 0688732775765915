"""The frozen dataclasses of a food that every calculation speaks.

Amounts are whole milligrams, shares are per mille. Nothing here knows Django.
"""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """A food that is a part of a whole piece: egg yolk from an egg, zest from a lemon.

    ``milligrams_per_piece`` is what one whole piece of ``food`` gives of this part.
    """

    food: str
    milligrams_per_piece: int


@dataclass(frozen=True, slots=True)
class FoodData:
    """One food as a calculation needs it.

    ``contains`` and ``may_contain`` hold kinds of ``curriculum.allergens`` ("wheat",
    "almond", "milk"). ``usable_per_mille`` is the usable share of the food as bought.
    ``rounding`` is "up" (bulk and purchases) or "nearest" (salt, raising agent, gel, spice).
    ``label_read_on`` is None when nobody has read a label yet.
    ``facts`` answers other ways of eating: (("meat", "no"), ("alcohol", "unknown"), …).
    ``counted_in`` is "grams" or "pieces"; a piece weighs ``piece_milligrams`` as bought,
    of which ``edible_piece_milligrams`` are eaten. ``dough_part`` is what it is in a dough or a
    mix ("flour", "fat", "liquid", "egg", "sugar", "raising", "salt", "gel" or empty);
    ``gelatine_bloom`` the strength of a gelatine. ``piece_weights`` are other things a cook counts:
    (("clove", 3000), ("sprig", 500), …) in milligrams.
    """

    code: str
    name: str
    storage: str = "ambient"
    scaling_class: str = "linear"
    increment_milligrams: int = 1000
    rounding: str = "up"
    usable_per_mille: int = 1000
    counted_in: str = "grams"
    piece_milligrams: int | None = None
    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    label_read_on: date | None = None
    facts: tuple[tuple[str, str], ...] = ()
    made_from: MadeFrom | None = None
    milligrams_per_ml: int | None = None
    from_tap: bool = False
    edible_piece_milligrams: int | None = None
    dough_part: str = ""
    gelatine_bloom: int | None = None
    piece_weights: tuple[tuple[str, int], ...] = ()
