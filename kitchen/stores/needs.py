"""What a class needs of each food, as it leaves the stores: the sum of its kits.

For the kits page, the requisition and the order. needed + allowance = issued: the allowance
is what rounding each kit adds. Whole pieces are issued by kit and pooled in an order:
seventeen benches of 4.3 eggs are given 85, and 74 are ordered (common practice, no source).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from curriculum.foods import rounding
from kitchen.stores.kits import KitLinePlan, KitPlan


@dataclass(frozen=True, slots=True)
class Need:
    """What a class needs of one food, as it leaves the stores.

    ``milligrams`` and ``pieces`` are the sums of what its kits are given; ``exact_milligrams``
    is the sum before any rounding. ``pooled_pieces`` are the whole pieces an order needs when
    the kits' exact pieces are added first.
    """

    food: str
    name: str
    exact_milligrams: Fraction
    milligrams: int
    pieces: int | None = None
    pooled_pieces: int | None = None
    unit_milligrams: int = 0

    @property
    def ordered_milligrams(self) -> int:
        """What an order asks for: whole pieces pooled over the class, weights as they are issued."""
        return self.milligrams if self.pooled_pieces is None else self.pooled_pieces * self.unit_milligrams

    @property
    def allowance_milligrams(self) -> Fraction:
        """What rounding each kit adds: needed + allowance = issued."""
        return self.milligrams - self.exact_milligrams


def class_need(kits: Iterable[KitPlan]) -> tuple[Need, ...]:
    """What all kits together take out of the stores, by food; the tap is left out."""
    lines = sorted(
        (line for kit in kits for line in kit.lines if not line.from_tap), key=lambda line: line.food
    )
    return tuple(_need(food, tuple(group)) for food, group in groupby(lines, key=lambda line: line.food))


def _need(food: str, lines: tuple[KitLinePlan, ...]) -> Need:
    counted = [line for line in lines if line.pieces is not None]
    return Need(
        food=food,
        name=lines[0].words,
        exact_milligrams=sum((line.stock_exact for line in lines), Fraction(0)),
        milligrams=sum(line.stock_milligrams for line in lines),
        pieces=sum(line.pieces for line in counted) if counted else None,
        pooled_pieces=rounding.whole_pieces(sum(line.exact for line in counted)) if counted else None,
        unit_milligrams=counted[0].unit_milligrams if counted else 0,
    )
