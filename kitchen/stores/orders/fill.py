"""Filling up a least order with foods that are only to fill: which sums of money can be reached.

For ``least_orders.py``. The foods here are not needed and come with one of the deliveries, each up
to its most (``problem.Wanted``); what is filled keeps, so that a penny spent costs a penny. Which
sums can be spent is a number whose bits are the sums; a food multiplies the possibilities.

Worked example: sugar at £1.20 up to twice and flour at £2.00 once: 0, 120, 200, 240, 320 and 440
pence. A least order short by £3.00 is filled with one of each.
"""

from functools import cached_property
from math import gcd

from kitchen.stores.orders.choices import Item

#: A food to fill with: its place among the wanted, its packs with the delivery, its most in milligrams.
Loose = tuple[int, tuple[Item, ...], int]


class Fill:
    """What can be spent with one delivery on these foods, up to so many pence and a pack."""

    def __init__(self, foods: list[Loose], least_pence: int) -> None:
        self.foods = foods
        most = max((item.pence for _, items, _ in foods for item in items), default=0)
        self.mask = (1 << (least_pence + most + 1)) - 1
        #: The sums that the first foods reach, from none on.
        self.reached = [1]
        for each in foods:
            self.reached.append(self._more(self.reached[-1], _sums(each, self.mask)[0]))

    def cost(self, pence: int) -> int | None:
        """The least sum that is so much or more; None when so much cannot be spent."""
        left = self.sums >> pence
        return pence + (left & -left).bit_length() - 1 if left else None

    def picks(self, pence: int) -> list[tuple[int, Item, int]]:
        """What to buy to spend just so much, which is one of the sums."""
        found = []
        for place in range(len(self.foods), 0, -1):
            options, steps = _sums(self.foods[place - 1], self.mask)
            spent = next(
                each
                for each in _bits(options)
                if each <= pence and self.reached[place - 1] >> (pence - each) & 1
            )
            found += _picked(self.foods[place - 1], steps, spent)
            pence -= spent
        return found

    @cached_property
    def sums(self) -> int:
        """Every sum that can be spent."""
        return self.reached[-1]

    def _more(self, before: int, options: int) -> int:
        found = 0
        for each in _bits(options):
            found |= before << each
        return found & self.mask


def _sums(food: Loose, mask: int) -> tuple[int, list[int]]:
    """The sums of one food, and those for each number of units."""
    _, items, most = food
    unit = gcd(*(item.milligrams for item in items))
    steps = [1] + [0] * (most // unit)
    for at in range(1, len(steps)):
        for item in items:
            before = at - item.milligrams // unit
            if before >= 0:
                steps[at] |= steps[before] << item.pence & mask
    found = 0
    for each in steps:
        found |= each
    return found, steps


def _picked(food: Loose, steps: list[int], pence: int) -> list[tuple[int, Item, int]]:
    """The packs of one food that come to that sum."""
    wanted, items, _ = food
    unit = gcd(*(item.milligrams for item in items))
    at, found = next(at for at, each in enumerate(steps) if each >> pence & 1), []
    while at:
        item = next(
            item
            for item in items
            if (before := at - item.milligrams // unit) >= 0
            and pence >= item.pence
            and steps[before] >> (pence - item.pence) & 1
        )
        found.append((wanted, item, 1))
        at, pence = at - item.milligrams // unit, pence - item.pence
    return found


def _bits(number: int) -> list[int]:
    """The places of the bits that are set."""
    return [at for at, bit in enumerate(reversed(f"{number:b}")) if bit == "1"]
