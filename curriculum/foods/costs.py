"""What foods cost: by the pack, as used, a portion; exact pence until the last step.

For the recipe page, orders and budgets. A price is one pack of so many milligrams (or so
many pieces) for so many pence. Cost stays an exact ``Fraction`` of a pence; ``pence``
rounds once, a half up. Published teaching figures truncate on the way (1.42 for 100/70);
these do not.

Worked example: 260 g of flour from a pack of 16 kg at £13.60 is 22.1 pence; 4.3 eggs from
a tray of 30 at £6.00 are 86 pence; together 108.1, written £1.08.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor


@dataclass(frozen=True, slots=True)
class PackPrice:
    """One pack by which a food is costed. ValueError for a pack of nothing or a price below nothing."""

    food: str
    milligrams: int
    pence: int
    pieces: int | None = None

    def __post_init__(self) -> None:
        if self.milligrams <= 0 or self.pence < 0 or (self.pieces is not None and self.pieces <= 0):
            raise ValueError(f"A pack of {self.food} holds more than nothing and costs nothing or more.")


@dataclass(frozen=True, slots=True)
class Use:
    """So much of one food, as it is handed out; in pieces where it is handed out by the piece."""

    food: str
    milligrams: Fraction
    pieces: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Cost:
    """Exact pence, and the foods that no pack gives a price for (they count as nothing)."""

    exact_pence: Fraction
    without_price: tuple[str, ...] = ()


def cost_of(use: Use, price: PackPrice) -> Fraction:
    """Exact pence of one use: by the piece where both speak of pieces, else by weight."""
    if use.pieces is not None and price.pieces is not None:
        return Fraction(price.pence) * use.pieces / price.pieces
    return Fraction(price.pence) * use.milligrams / price.milligrams


def total(uses: Iterable[Use], prices: Mapping[str, PackPrice], free: frozenset[str] = frozenset()) -> Cost:
    """Exact pence of all uses. Foods in ``free`` come from the tap; what has no price is named."""
    exact = Fraction(0)
    missing: list[str] = []
    for use in uses:
        if use.food in free:
            continue
        if use.food in prices:
            exact += cost_of(use, prices[use.food])
        elif use.food not in missing:
            missing.append(use.food)
    return Cost(exact, tuple(missing))


def pence(exact: Fraction | int) -> int:
    """Whole pence of an exact cost, a half up: rounded once, last."""
    return floor(Fraction(exact) + Fraction(1, 2))


def a_portion(exact: Fraction | int, portions: int) -> Fraction:
    """Exact pence of one of so many portions."""
    return Fraction(exact) / portions


def a_kilogram(price: PackPrice) -> Fraction:
    """Exact pence of a kilogram as bought."""
    return Fraction(price.pence * 1_000_000, price.milligrams)


def usable_price(price: Fraction | int, usable_share: Fraction) -> Fraction:
    """The price of a usable unit: as bought / usable share. 1.49 at 55 % is 2.709."""
    return Fraction(price) / usable_share


def cost_share(cost: Fraction | int, sales: Fraction | int) -> Fraction:
    """Cost of food as a share of what was taken for it."""
    return Fraction(cost) / Fraction(sales)


def price_for_share(cost: Fraction | int, share: Fraction) -> Fraction:
    """What to ask so that the food is ``share`` of the price: 15 at 30 % is 50."""
    return Fraction(cost) / share


def food_used(opening: int, bought: int, closing: int) -> int:
    """What was used of a stock: opening + bought - closing."""
    return opening + bought - closing


def usable_value(paid: Fraction | int, by_products: Iterable[Fraction | int]) -> Fraction:
    """What the main cut has cost when the by-products are credited at their own worth."""
    return Fraction(paid) - sum(map(Fraction, by_products), Fraction(0))
