"""Whole packs: what a need costs when it is bought in the packs that suppliers sell.

For the requisition page and the order. Purchases are rounded up to whole packs, never
down. Thin: one size of pack a food; several sizes and suppliers together are a sum of their
own. Money in whole pence, amounts in whole milligrams, so 0.1 kg + 0.2 kg is exactly one
pack of 0.3 kg.

Worked example: 1,350 g in packs of 500 g are three packs with 150 g over; exactly 1,500 g
are three packs too, and not four.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class PackData:
    """One size that one supplier sells at a price, from a day until a day (None: still)."""

    food: str
    supplier: str
    milligrams: int
    pence: int
    from_on: date | None = None
    until_on: date | None = None


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

    None when nothing is sold on that day.
    """
    sold = [pack for pack in packs if on is None or _sold(pack, on)]
    bought = [
        Purchase(pack, packs_for(needed_milligrams, pack.milligrams), needed_milligrams) for pack in sold
    ]
    return min(bought, key=lambda each: (each.pence, each.over_milligrams, each.pack.supplier), default=None)


def _sold(pack: PackData, on: date) -> bool:
    begun = pack.from_on is None or pack.from_on <= on
    return begun and (pack.until_on is None or on <= pack.until_on)
