"""What a change of numbers makes of a requisition, line by line: before, now, difference.

For the page of a requisition, for the lecturer and the stores. Plain data in, plain data out.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from kitchen.stores.requisitions.reasons import Asked, rank


@dataclass(frozen=True, slots=True)
class Difference:
    """A food whose amount is another one now; nothing before: it is new, nothing now: it is gone.

    ``reasons`` are those whose share changed, in their order, with what each adds or takes away.
    """

    food: str
    before_milligrams: int
    now_milligrams: int
    reasons: tuple[tuple[str, int], ...] = ()

    @property
    def milligrams(self) -> int:
        """More (above nought) or less than before."""
        return self.now_milligrams - self.before_milligrams

    @property
    def kind(self) -> str:
        """One word: "new", "gone", "more" or "less"."""
        if not self.before_milligrams:
            return "new"
        if not self.now_milligrams:
            return "gone"
        return "more" if self.milligrams > 0 else "less"


def differences(before: Iterable[Asked], now: Iterable[Asked]) -> tuple[Difference, ...]:
    """Each food of which more or less is asked for, by its code.

    A food whose reasons changed while its sum stands is none: the stores hand out the same.
    """
    old, new = _shares(before), _shares(now)
    found = (_difference(food, old.get(food, {}), new.get(food, {})) for food in sorted({*old, *new}))
    return tuple(each for each in found if each.milligrams)


def totals(asked: Iterable[Asked]) -> dict[str, int]:
    """The sum of each food."""
    return {food: sum(shares.values()) for food, shares in _shares(asked).items()}


def _shares(asked: Iterable[Asked]) -> dict[str, dict[str, int]]:
    found: dict[str, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for each in asked:
        found[each.food][each.why] += each.milligrams
    return found


def _difference(food: str, old: dict[str, int], new: dict[str, int]) -> Difference:
    ordered = sorted({*old, *new}, key=rank)
    shares = ((why, new.get(why, 0) - old.get(why, 0)) for why in ordered)
    reasons = tuple((why, more) for why, more in shares if more)
    return Difference(food, sum(old.values()), sum(new.values()), reasons)
