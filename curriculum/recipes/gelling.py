"""Gelatine of another bloom: both rules that are in use, in grams and in leaves. A person decides.

For the page "Scale it". Two public guides disagree and so do the rules: mass x sqrt(bloom of
the recipe / bloom in hand), from memory, and mass x bloom / bloom, which also circulates.
How many leaves that is depends on the weight of one leaf, which varies with the grade.

Worked example: 8 g at 200 bloom are 8.9 g or 10 g at 160. In leaves of 2.5 g that is 3.6 or
4 leaves: four, and no leaf is cut in silence.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.recipes.classes import gelatine
from curriculum.recipes.data import FoodData


@dataclass(frozen=True, slots=True)
class GelRule:
    """What one rule gives: milligrams, and exact leaves where the weight of a leaf is known."""

    name: str
    milligrams: int
    leaves: Fraction | None


@dataclass(frozen=True, slots=True)
class Gelatine:
    """One gelatine line with the recipe's bloom, the one in hand, and what each rule gives."""

    exact_milligrams: Fraction
    bloom: int
    other_bloom: int
    leaf_milligrams: int | None
    rules: tuple[GelRule, ...]


def choices(
    exact: Fraction | int, food: FoodData, bloom: int | None = None, leaf: int | None = None
) -> Gelatine | None:
    """Both rules for a line of gelatine; None for a gel without a bloom of its own.

    ``bloom`` is of the pack in hand (None: as the recipe's), ``leaf`` the milligrams of one leaf
    (None: what the food says of a leaf, if it does).
    """
    if food.gelatine_bloom is None:
        return None
    leaf = leaf or dict(food.piece_weights).get("leaf")
    other = bloom or food.gelatine_bloom
    rooted, linear = gelatine(round(exact), food.gelatine_bloom, other)
    names = ("by the square root of the blooms", "in proportion to the blooms")
    rules = tuple(
        GelRule(name, milligrams, None if leaf is None else Fraction(milligrams, leaf))
        for name, milligrams in zip(names, (rooted, linear), strict=True)
    )
    return Gelatine(Fraction(exact), food.gelatine_bloom, other, leaf, rules)
