"""What is left of a food after trimming, from the college's own weighings.

The share of all tests together is the sum of what was usable over the sum of what was bought, so
a test of ten kilograms counts more than one of two. At least ``ENOUGH_TESTS`` tests propose a
figure; beside it stand the range of the single tests, the figure in use, and what tables print.

Trim that was weighed after lessons is shown and not counted: nobody knows that all of it came
to the scale, so it says only what is usable at most.

Worked example: 6 kg to 5.2 kg and 4 kg to 3.2 kg are 8.4 of 10 kg, 84 %; the single tests are
86.7 and 80 %, and their plain mean of 83.3 % is not used.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from curriculum.foods.yields import TestedYield, share, tested_per_mille
from kitchen.stores.learning.evidence import USABLE, LessonFood, Proposal, Row, taught

TRIM = ("trim",)


@dataclass(frozen=True, slots=True)
class Weighed:
    """A test of the college's own, and who weighed."""

    test: TestedYield
    by: str

    @property
    def per_mille(self) -> int:
        """What was usable of it."""
        return round(share(self.test.purchased_milligrams, self.test.usable_milligrams) * 1000)


def propose(food: str, weighed: Sequence[Weighed], in_use: int) -> Proposal | None:
    """The usable share of a food in per mille over all tests; None without a test."""
    amount = tested_per_mille(tuple(each.test for each in weighed))
    if amount is None:
        return None
    latest = sorted(weighed, key=lambda each: each.test.on, reverse=True)
    return Proposal(USABLE, food, "", amount, in_use, tuple(_row(n, each) for n, each in enumerate(latest)))


def trimmed(lessons: Iterable[LessonFood]) -> tuple[tuple[LessonFood, int], ...]:
    """Lessons in which trim was weighed, and what of the food was usable at most, per mille."""
    teaching, _ = taught(lessons)
    found = []
    for each in sorted(teaching, key=lambda one: one.on, reverse=True):
        out = each.issued - each.sealed
        trim = each.thrown_for(TRIM)
        if trim and out > 0:
            found.append((each, 1000 - min(1000, trim * 1000 // out)))
    return tuple(found)


def _row(number: int, each: Weighed) -> Row:
    figures = (("Bought", each.test.purchased_milligrams), ("Usable", each.test.usable_milligrams))
    return Row(str(number), each.by, each.test.on, "", 0, figures, each.per_mille)
