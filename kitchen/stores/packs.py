"""Whole packs: what a need costs when it is bought in the packs that suppliers sell.

For the requisition page, the plan of a week and the order. Purchases are rounded up to whole
packs, never down. Money in whole pence, amounts in whole milligrams, so 0.1 kg + 0.2 kg is
exactly one pack of 0.3 kg.

``counts_of`` mixes sizes and suppliers at least cost, exactly: ``best[u]`` is the least cost of
covering ``u`` units, ``best[u] = min(cost of a pack + best[u - its units])``, where a unit is
the greatest common divisor of the sizes (any sum of packs is a whole number of units, so a need
rounded up to units is covered by the same packs). A cost is in millionths of a penny: the price
of the pack, and what its grams cost when they are left over and do not keep
(``waste_pence_per_kilogram``); only grams beyond the need count, since the need is the same
whatever is bought.

A large need is first reduced: let ``b`` be the pack with the least cost a unit. Of any ``units(b)``
other packs some together weigh a multiple of ``b``, and as many ``b`` instead cost no more; so
some best answer has fewer than ``units(b)`` others, and the rest is ``b``.

Worked example: 1,350 g in packs of 500 g are three packs with 150 g over; exactly 1,500 g are
three packs too, and not four. 2,300 g from packs of 2,000 g at £2.00 and 500 g at £0.70 are one
of each, £2.70: two large ones cost £4.00, five small ones £3.50.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import gcd

#: Millionths of a penny in a penny: a penny a kilogram is one of them a milligram.
MICRO = 1_000_000


@dataclass(frozen=True, slots=True)
class PackData:
    """One size that one supplier sells at a price, from a day until a day (None: still).

    ``key`` is whatever the caller knows it by.
    """

    food: str
    supplier: str
    milligrams: int
    pence: int
    from_on: date | None = None
    until_on: date | None = None
    key: int = 0

    def sold_on(self, day: date) -> bool:
        """Whether it is sold at this price on that day."""
        begun = self.from_on is None or self.from_on <= day
        return begun and (self.until_on is None or day <= self.until_on)

    def micro(self, waste_pence_per_kilogram: int) -> int:
        """What it costs with its grams counted as left over, in millionths of a penny."""
        return self.pence * MICRO + waste_pence_per_kilogram * self.milligrams


@dataclass(frozen=True, slots=True)
class Purchase:
    """So many whole packs: what they cost and what is left over."""

    pack: PackData
    count: int
    needed_milligrams: int

    @property
    def pence(self) -> int:
        """The price of all packs."""
        return self.count * self.pack.pence

    @property
    def over_milligrams(self) -> int:
        """What goes back to the shelf: bought less needed."""
        return self.count * self.pack.milligrams - self.needed_milligrams


def packs_for(needed_milligrams: int, pack_milligrams: int) -> int:
    """Whole packs that cover the need: rounded up, an exact multiple stays as it is.

    ValueError for a pack of nothing or a need below nothing.
    """
    if pack_milligrams <= 0 or needed_milligrams < 0:
        raise ValueError("A pack weighs more than nothing and a need is not below nothing.")
    return -(-needed_milligrams // pack_milligrams)


def cheapest(needed_milligrams: int, packs: Iterable[PackData], on: date | None = None) -> Purchase | None:
    """The one size of pack that covers the need at the least price; the least left over breaks ties.

    For one lesson's requisition alone, and beside a plan: what somebody pays who mixes no packs.
    None when nothing is sold on that day.
    """
    bought = [
        Purchase(pack, packs_for(needed_milligrams, pack.milligrams), needed_milligrams)
        for pack in packs
        if on is None or pack.sold_on(on)
    ]
    return min(bought, key=lambda each: (each.pence, each.over_milligrams, each.pack.supplier), default=None)


def least_cost(needed_milligrams: int, sizes: Sequence[tuple[int, int]]) -> int:
    """The least cost of covering the need from sizes (milligrams, cost each). ValueError without sizes."""
    if needed_milligrams <= 0:
        return 0
    units, kept, first = _reduced(needed_milligrams, sizes)
    return first * _leanest(kept)[1] + least_table(units, _pairs(kept))[units]


def counts_of(needed_milligrams: int, sizes: Sequence[tuple[int, int]]) -> dict[int, int]:
    """How many of which size (by its place in ``sizes``) cost the least; the earlier one breaks ties."""
    if needed_milligrams <= 0:
        return {}
    units, kept, first = _reduced(needed_milligrams, sizes)
    best, counts = least_table(units, _pairs(kept)), {}
    if first:
        counts[_leanest(kept)[2]] = first
    while units > 0:
        step, cost, at = next(each for each in kept if best[units] == each[1] + best[max(0, units - each[0])])
        counts[at] = counts.get(at, 0) + 1
        units -= step
    return counts


def least_table(units: int, pairs: Sequence[tuple[int, int]]) -> list[int]:
    """The least cost of covering each number of units up to that, from (units, cost each)."""
    best = [0] * (units + 1)
    for at in range(1, units + 1):
        best[at] = min([cost + best[at - size] if at > size else cost for size, cost in pairs])
    return best


#: A size as the table works with it: its units, its cost, its place in what was given.
_Size = tuple[int, int, int]


def _reduced(needed: int, sizes: Sequence[tuple[int, int]]) -> tuple[int, list[_Size], int]:
    """Units to cover, the sizes worth trying, and how many of the leanest are taken at once."""
    if not sizes or min(size for size, _ in sizes) <= 0:
        raise ValueError("There is at least one pack, and it weighs more than nothing.")
    unit = gcd(*(size for size, _ in sizes))
    kept = _undominated([(size // unit, cost, at) for at, (size, cost) in enumerate(sizes)])
    units = packs_for(needed, unit)
    lean = _leanest(kept)
    first = max(0, units - lean[0] * max(size for size, _, _ in kept)) // lean[0]
    return units - first * lean[0], kept, first


def _undominated(sizes: list[_Size]) -> list[_Size]:
    """Without sizes that another one covers at no more cost."""
    kept: list[_Size] = []
    for size in sorted(sizes, key=lambda each: (-each[0], each[1], each[2])):
        if not kept or size[1] < kept[-1][1]:
            kept.append(size)
    return kept


def _pairs(sizes: list[_Size]) -> list[tuple[int, int]]:
    return [(size, cost) for size, cost, _ in sizes]


def _leanest(sizes: list[_Size]) -> _Size:
    """The size with the least cost a unit; fractions are compared crosswise, without dividing."""
    lean = sizes[0]
    for size in sizes[1:]:
        if size[1] * lean[0] < lean[1] * size[0]:
            lean = size
    return lean
