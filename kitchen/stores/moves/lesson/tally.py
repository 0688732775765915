"""What a lesson took, gave back, threw away, and what that cost.

Plain data in, plain data out; whole milligrams, exact pence rounded once at the end.

The three numbers of a food are *issued* (with what was given later beside it), *returned*
(sealed, back in its lot) and *used*: issued + supplementary - returned - thrown away - kept for
re-work. The cost after the lesson is that of what was issued and given later less what was
returned or kept for re-work; what was thrown away is part of it, and said beside it.

Worked example: 1,000 g issued, 150 g given later, 200 g back in the lot, 50 g thrown away: 900 g
are used. At 90 p a kilogram the lesson cost 86 p (950 g), 5 p of it thrown away.

Source of the sum: (issued + supplementary - returned) a learner who was there, stores practice
(common practice, no source).
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods.costs import Cost, PackPrice, Use, pence, total


@dataclass(frozen=True, slots=True)
class Moved:
    """So much of a food (its key) moved in one way; a correction moves in the way of what it corrects."""

    food: int
    kind: str
    milligrams: int


@dataclass(frozen=True, slots=True)
class Asked:
    """So much of a food (its key) is planned; ``shown`` for the demonstration and its stage trays."""

    food: int
    milligrams: int
    shown: bool = False


def summed(asked: Iterable[Asked]) -> dict[int, int]:
    """What is planned by food, in milligrams."""
    sums: dict[int, int] = defaultdict(int)
    for each in asked:
        sums[each.food] += each.milligrams
    return dict(sums)


@dataclass(frozen=True, slots=True)
class Tally:
    """The numbers of one food of a lesson, in milligrams."""

    issued: int = 0
    more: int = 0
    returned: int = 0
    wasted: int = 0
    reworked: int = 0

    @property
    def used(self) -> int:
        """What was cooked or eaten: all that left less all that came back."""
        return self.paid - self.wasted

    @property
    def paid(self) -> int:
        """What the lesson pays for: used and thrown away."""
        return self.issued + self.more - self.returned - self.reworked


@dataclass(frozen=True, slots=True)
class Money:
    """What something cost in whole pence, a learner and a portion (None for nobody); what has no price."""

    pence: int
    a_learner: int | None
    a_portion: int | None
    without_price: tuple[str, ...] = ()


def tallies(moves: Iterable[Moved]) -> dict[int, Tally]:
    """The numbers by food. Opened food came back before it was thrown away or kept; that is no return."""
    sums: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for each in moves:
        sums[each.food][each.kind] += each.milligrams
    return {food: _tally(kinds) for food, kinds in sums.items()}


def _tally(kinds: Mapping[str, int]) -> Tally:
    said = {kind: kinds.get(kind, 0) for kind in ("issue", "supplementary", "return", "waste", "rework")}
    wasted, reworked = -said["waste"], said["rework"]
    returned = said["return"] - wasted - reworked
    return Tally(-said["issue"], -said["supplementary"], returned, wasted, reworked)


def money(uses: Iterable[Use], prices: Mapping[str, PackPrice], learners: int, portions: int) -> Money:
    """What these uses cost together, a learner and a portion; rounded once, last."""
    cost: Cost = total(uses, prices)
    return Money(
        pence(cost.exact_pence),
        _shared(cost.exact_pence, learners),
        _shared(cost.exact_pence, portions),
        cost.without_price,
    )


def _shared(exact: Fraction, among: int) -> int | None:
    return pence(exact / among) if among else None
