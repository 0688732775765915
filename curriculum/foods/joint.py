"""Joint products: what each part of a whole piece costs, when the piece is bought whole.

For the cost of recipes that use the yolk and leave the white, the cream and leave the skimmed
milk, the juice and leave the zest: any foods that are parts of the same piece. A piece has one
price; a part has none of its own until somebody says how the price is shared. The rule:

1. What the pieces cost is shared between all their parts by the worth of what one piece gives
   of each, when every part can also be bought by itself (weight given x price of that weight);
   by the weight given when one of the parts has no price.
2. Of its share a part used bears as much as was used of it. What is left over is credited with
   the rest, when it is kept for something; a left-over that is thrown away earns no credit, and
   the parts used bear it in proportion to what they bear already.
3. So what is borne and what is credited together are what was paid, to the last fraction.

Common practice of joint costs, no source; a college may cost its eggs by the piece instead.

Worked example: 10 eggs at 20 pence are 200 pence; each gives 18 g of yolk and 33 g of white.
By weight the yolks have 6/17, 70.59 pence, the whites 11/17, 129.41 pence. 180 g of yolk and
66 g of white are used: the yolk bears 70.59 pence, the white a fifth of its share, 25.88; the
264 g of white left are credited with 103.53 pence when they are kept for meringue. When they
are thrown away the yolk bears 146.34 and the white 53.66 pence: 200 again.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods.costs import PackPrice


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a whole piece: what one piece gives of it in milligrams, and its own price if it has one."""

    food: str
    milligrams_per_piece: int
    price: PackPrice | None = None

    def __post_init__(self) -> None:
        if self.milligrams_per_piece <= 0:
            raise ValueError(f"A piece gives more than nothing of {self.food}.")


@dataclass(frozen=True, slots=True)
class Left:
    """What is left over of a part: milligrams, and the exact pence credited (0 when thrown away)."""

    food: str
    milligrams: Fraction
    credit_pence: Fraction


@dataclass(frozen=True, slots=True)
class JointCost:
    """What pieces cost and who bears it, in exact pence. ``by`` is "worth" or "weight".

    ``paid_pence`` = the sum of ``borne_pence`` + the sum of the credits of ``left``.
    """

    paid_pence: Fraction
    borne_pence: Mapping[str, Fraction]
    left: tuple[Left, ...]
    by: str


def shared_by(parts: Iterable[Part]) -> str:
    """ "worth" when every part has a price above nothing, else "weight"."""
    priced = all(part.price is not None and part.price.pence > 0 for part in parts)
    return "worth" if priced else "weight"


def shares(parts: Iterable[Part]) -> dict[str, Fraction]:
    """Each part's share of the price of a piece, together 1. ValueError without a part or named twice."""
    parts = tuple(parts)
    if not parts or len({part.food for part in parts}) != len(parts):
        raise ValueError("A piece is shared between parts, each named once.")
    by_worth = shared_by(parts) == "worth"
    weights = {part.food: _worth(part) if by_worth else Fraction(part.milligrams_per_piece) for part in parts}
    whole = sum(weights.values())
    return {food: weight / whole for food, weight in weights.items()}


def joint_cost(
    piece_pence: Fraction | int,
    pieces: Fraction | int,
    parts: Iterable[Part],
    used: Mapping[str, Fraction | int],
    kept: frozenset[str] = frozenset(),
) -> JointCost:
    """Who bears the cost of so many ``pieces``.

    ``used`` are milligrams of each part as used, ``kept`` the parts whose left-over goes into
    something else. ValueError when nothing is used, when a food used is no part of the piece, or
    when more of a part is used than the pieces give.
    """
    parts, paid = tuple(parts), Fraction(piece_pence) * Fraction(pieces)
    obtained = {part.food: Fraction(part.milligrams_per_piece) * Fraction(pieces) for part in parts}
    _refuse_impossible(obtained, used)
    of_each = {food: share * paid for food, share in shares(parts).items()}
    own = {food: of_each[food] * Fraction(used.get(food, 0)) / obtained[food] for food in obtained}
    left = tuple(
        Left(food, rest, of_each[food] - own[food] if food in kept else Fraction(0))
        for food in obtained
        if (rest := obtained[food] - Fraction(used.get(food, 0))) > 0
    )
    return JointCost(paid, _with_losses(own, paid, left), left, shared_by(parts))


def _with_losses(own: dict[str, Fraction], paid: Fraction, left: tuple[Left, ...]) -> dict[str, Fraction]:
    """What each part used bears, once nobody is credited for what is thrown away."""
    to_bear = paid - sum((each.credit_pence for each in left), Fraction(0))
    so_far = sum(own.values())
    if not so_far:
        return {food: Fraction(0) for food in own}
    return {food: pence * to_bear / so_far for food, pence in own.items()}


def _worth(part: Part) -> Fraction:
    """Exact pence of what one piece gives of a part, at the part's own price."""
    return Fraction(part.price.pence * part.milligrams_per_piece, part.price.milligrams)


def _refuse_impossible(obtained: Mapping[str, Fraction], used: Mapping[str, Fraction | int]) -> None:
    if not any(used.values()):
        raise ValueError("Of a piece that is costed, at least one part is used.")
    for food, milligrams in used.items():
        if food not in obtained:
            raise ValueError(f"{food} is no part of the piece.")
        if not 0 <= milligrams <= obtained[food]:
            raise ValueError(f"More of {food} is used than the pieces give.")
