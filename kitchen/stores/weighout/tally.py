"""The running tally: how much of a food is weighed, out of which lot, and what must be left in the pack.

For the weigh-out. Plain data in, plain data out; milligrams. Nothing leaves a lot before the
kits are issued, so what the pack must still hold is what the book says less everything that
stands weighed out of it and has not left, of any lesson.

Worked example: the book has 1,000 g of lot LS-2207; three benches of 130 g are weighed out of
it: 610 g must be left. The scale shows 480 g: 130 g less, which is as much as one bench gets.

A difference is named from a share of what was weighed out of the pack, but no less than a
half a step of the scale for each weight (our own choice, no source). Where that is as much as a
whole bench gets, a forgotten bench cannot be told from the scale, and the words say so.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from curriculum import wording
from kitchen.stores.trays import stock_words


@dataclass(frozen=True, slots=True)
class Reading:
    """What a pack weighed, what it was to weigh, and when and by whom ("10:51, HB")."""

    milligrams: int
    expected: int
    noted: str


@dataclass(frozen=True, slots=True)
class LotTally:
    """One lot at a stop: what the book has, what stands weighed out of it, what is still to come.

    ``weights`` are those of this stop that came out of it, ``elsewhere`` what other stops and
    lessons weighed out of it. ``unit`` is the weight of a whole piece, or 0.
    """

    lot: str
    in_book: int
    to_come: int = 0
    weights: tuple[int, ...] = ()
    elsewhere: int = 0
    unit: int = 0
    reading: Reading | None = None

    @property
    def weighed(self) -> int:
        """What stands weighed out of it."""
        return sum(self.weights) + self.elsewhere

    @property
    def remains(self) -> int:
        """What must be left in the pack now; below nothing where more was weighed than the book has."""
        return self.in_book - self.weighed

    @property
    def words(self) -> str:
        """ "1,000 g in the book, 390 g weighed out, so 610 g must be left."."""
        said = f"{self._amount(self.in_book)} in the book, {self._amount(self.weighed)} weighed out"
        if self.remains < 0:
            over = self._amount(-self.remains)
            return f"{said}: {over} more than the book has. Count the pack in, or look for a weight twice."
        return f"{said}, so {self._amount(self.remains)} must be left."

    def _amount(self, milligrams: int) -> str:
        return stock_words(milligrams, self.unit)


@dataclass(frozen=True, slots=True)
class FoodTally:
    """One food: how much of how much is weighed, and its lots."""

    needed: int
    weighed: int
    lots: tuple[LotTally, ...]
    unit: int = 0

    @property
    def words(self) -> str:
        """ "390 g of 910 g weighed."."""
        return f"{stock_words(self.weighed, self.unit)} of {stock_words(self.needed, self.unit)} weighed."


def tolerance_of(weights: Iterable[int], per_mille: int, step: int) -> int:
    """How far a pack may be off before it is said, in milligrams."""
    taken = list(weights)
    return max(step, step * len(taken) // 2, sum(taken) * per_mille // 1000)


def reading_words(reading: Reading, weights: Sequence[int], tolerance: int, unit: int = 0) -> str:
    """What a reading says against the book, where the difference is worth saying; empty where it agrees."""
    off = reading.milligrams - reading.expected
    if abs(off) <= tolerance:
        return ""
    said = (
        f"The pack holds {stock_words(reading.milligrams, unit)} and {_left(reading.expected, unit)}: "
        f"{stock_words(abs(off), unit)} {'more' if off > 0 else 'less'}."
    )
    return f"{said} {_cause(off, weights, tolerance)}"


def _left(expected: int, unit: int) -> str:
    if expected < 0:
        return "nothing was to be left"
    return f"{stock_words(expected, unit)} were to be left"


def blind_words(weights: Sequence[int], tolerance: int) -> str:
    """Said where the tolerance is as much as the smallest weight; empty where a bench would show."""
    if not weights or tolerance < min(weights):
        return ""
    return (
        f"A difference up to {wording.amount(tolerance)} is not named, and the smallest weight is "
        f"{wording.amount(min(weights))}: a forgotten bench need not show here."
    )


def _cause(off: int, weights: Sequence[int], tolerance: int) -> str:
    benches = _as_many(abs(off), weights, tolerance)
    if benches is None:
        return "No number of benches makes that. Weigh the pack again, and count the lot."
    as_much = f"That is as much as {wording.counted_words(benches, 'weight')}."
    if off > 0:
        return f"{as_much} Was a bench tapped and not weighed?"
    return f"{as_much} Was a bench weighed twice?"


def _as_many(off: int, weights: Sequence[int], tolerance: int) -> int | None:
    """How many equal weights make the difference, within the tolerance; None for no such number."""
    for weight in dict.fromkeys(weights):
        count = max(1, round(off / weight))
        if count <= len(weights) and abs(off - count * weight) <= tolerance:
            return count
    return None
