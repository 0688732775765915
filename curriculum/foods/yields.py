"""As bought and usable: what is lost by trimming, peeling, boning, draining.

For kits and purchases. ``usable`` is the usable share of what was bought, in per mille
(leek trimmed and washed: 750). As bought = usable weight / share; usable weight = as
bought x share. Both are exact; rounding comes later.

Worked example: 300 g of trimmed leek at a usable share of 75 % is 400 g of leek as bought.

A yield belongs to the use, not to the food: a turned potato keeps about half, a boiled
one four fifths. So a line may override the food. Published tables disagree (cauliflower
39 % and 45 %): a figure is stored with whose it is, and a college's own tests come first.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class TestedYield:
    """One test of the college's own: so much bought gave so much usable, in milligrams."""

    on: date
    purchased_milligrams: int
    usable_milligrams: int

    def __post_init__(self) -> None:
        if not 0 < self.usable_milligrams <= self.purchased_milligrams:
            raise ValueError("The usable weight is more than nothing and at most the purchased weight.")


def as_bought(usable_milligrams: Fraction | int, usable_per_mille: int) -> Fraction:
    """Milligrams to buy so that ``usable_milligrams`` are left. ValueError for a share that is none."""
    return Fraction(usable_milligrams) * 1000 / _share(usable_per_mille)


def usable(bought_milligrams: Fraction | int, usable_per_mille: int) -> Fraction:
    """Milligrams left of ``bought_milligrams``. ValueError for a share that is none."""
    return Fraction(bought_milligrams) * _share(usable_per_mille) / 1000


def share(purchased_milligrams: Fraction | int, usable_milligrams: Fraction | int) -> Fraction:
    """The usable share, exact: 4.6 kg of 5.2 kg is 23/26."""
    return Fraction(usable_milligrams) / Fraction(purchased_milligrams)


def tested_per_mille(tests: tuple[TestedYield, ...]) -> int | None:
    """The college's own usable share in per mille over all its tests, by weight; None without a test."""
    if not tests:
        return None
    bought = sum(test.purchased_milligrams for test in tests)
    left = sum(test.usable_milligrams for test in tests)
    return round(share(bought, left) * 1000)


def own_source(tests: tuple[TestedYield, ...]) -> str:
    """Whose figure the college's own tests are: "own yield tests, 3, the last on 5 January 2027"."""
    last = max(test.on for test in tests)
    return f"own yield tests, {len(tests)}, the last on {last.day} {last:%B %Y}"


def spread(per_milles: Iterable[int]) -> tuple[int, int] | None:
    """The least and the most of several figures; None when there are fewer than two of them."""
    figures = list(per_milles)
    return (min(figures), max(figures)) if len(figures) > 1 else None


def _share(usable_per_mille: int) -> int:
    if not 0 < usable_per_mille <= 1000:
        raise ValueError("A usable share lies above 0 and at most at 1000 per mille.")
    return usable_per_mille
