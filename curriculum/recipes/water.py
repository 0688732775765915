"""How warm the water of a dough must be so that the dough comes out at the temperature wanted.

For the page "Scale it". The rule of bakers, common practice, from memory: the wanted dough
temperature times the number of things that warm the dough, less each of them. Three things
are flour, room and the friction of the mixer; a preferment makes a fourth.

Worked example: 26 °C wanted, flour 20, room 22, friction 8: 3 x 26 - 50 = 28 °C. With a
preferment at 24: 4 x 26 - 74 = 30 °C.

Below the tap, ice makes up the difference: ice = water x (tap - wanted) / (tap + 80), since
melting a gram of ice takes as much heat as cooling 80 grams by a degree (physics). 300 g
wanted at 4 °C from a tap of 14 °C are 31.9 g of ice and 268.1 g of water.

Temperatures are tenths of a degree, weights milligrams.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.errors import RuleBroken

#: Yeast is harmed from about here on: common practice, from memory.
HOTTEST_DECICELSIUS = 450
#: A cold tap, where nobody has measured it (common practice, no source).
TAP_DECICELSIUS = 120
#: Heat to melt ice, as tenths of a degree that the same weight of water cools by (physics, rounded).
MELTING_DECICELSIUS = 800
#: With more ice than this a dough is not mixed evenly: our own bound, no source.
MOST_ICE = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class DoughWater:
    """Water at ``decicelsius``; ``ice`` milligrams of the whole ``water`` where the tap is too warm."""

    decicelsius: int
    factors: int
    water: Fraction
    ice: Fraction = Fraction(0)


def temperature(wanted: int, flour: int, room: int, friction: int, preferment: int | None = None) -> int:
    """Tenths of a degree of the water, by three or, with a preferment, four things."""
    warm = [flour, room, friction, *([] if preferment is None else [preferment])]
    return wanted * len(warm) - sum(warm)


def dough_water(
    wanted: int,
    flour: int,
    room: int,
    friction: int,
    *,
    preferment: int | None = None,
    tap: int = TAP_DECICELSIUS,
    water: Fraction | int = 0,
) -> DoughWater:
    """The water of a dough, with ice where the tap is warmer. RuleBroken for what no water can do.

    ``water`` is its whole weight; ``tap`` the temperature at which it comes.
    """
    found = temperature(wanted, flour, room, friction, preferment)
    if found > HOTTEST_DECICELSIUS:
        raise RuleBroken(
            "water_too_hot",
            f"The water would have to be {wording.temperature(found)}, and yeast is harmed from about "
            f"{wording.temperature(HOTTEST_DECICELSIUS)} on. Warm the flour, or have the dough cooler.",
            field="wanted",
        )
    share = Fraction(max(0, tap - found), tap + MELTING_DECICELSIUS)
    if share > MOST_ICE:
        raise RuleBroken(
            "water_too_cold",
            f"The water would have to be {wording.temperature(found)}: more than half of it would be ice. "
            "Cool the flour, or let the dough come out warmer.",
            field="wanted",
        )
    return DoughWater(found, 3 if preferment is None else 4, Fraction(water), Fraction(water) * share)
