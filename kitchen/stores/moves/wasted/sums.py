"""What was thrown away in a span of days, added up by reason, by food and by lesson.

Plain data in, plain data out; whole milligrams, exact pence rounded once at the end of each row. A row is
one reason, food and lesson together; every sum adds the same rows, so all three come to the same total.

Worked example: 400 g of butter dropped in lesson A and 100 g in B, at 80 p a kilogram 32 p and 8 p.
By reason: dropped, 500 g, 40 p. By lesson: A 400 g, 32 p; B 100 g, 8 p.
"""

import csv
import io
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods.costs import pence
from curriculum.recipes.interchange.table import cell
from curriculum.wording import amount, grams, per_cent

HEADS = ("from", "until", "reason", "food", "lesson", "grams", "pence")


@dataclass(frozen=True, slots=True)
class Wasted:
    """So much of one food for one reason in one lesson, in words; ``exact_pence`` None without a price."""

    reason: str
    food: str
    lesson: str
    milligrams: int
    exact_pence: Fraction | None


@dataclass(frozen=True, slots=True)
class Sum:
    """One line of a table: what it is of, its weight, its pence, its share of the weight."""

    name: str
    milligrams: int
    pence: int
    share: Fraction

    @property
    def weight(self) -> str:
        """ "12.5 kg", "440 g"."""
        return amount(self.milligrams, stores=True)

    @property
    def share_words(self) -> str:
        """ "40 %"."""
        return per_cent(self.share)


def summed(rows: Iterable[Wasted], by: Callable[[Wasted], str]) -> tuple[Sum, ...]:
    """The rows added up by one of their words, the dearest first, then the heaviest."""
    rows = tuple(rows)
    all_milligrams = sum(each.milligrams for each in rows)
    names = dict.fromkeys(map(by, rows))
    sums = [_sum(name, [each for each in rows if by(each) == name], all_milligrams) for name in names]
    return tuple(sorted(sums, key=lambda each: (-each.pence, -each.milligrams, each.name)))


def total(rows: Iterable[Wasted]) -> Sum:
    """All rows together."""
    rows = list(rows)
    return _sum("Together", rows, sum(each.milligrams for each in rows))


def _sum(name: str, rows: list[Wasted], all_milligrams: int) -> Sum:
    milligrams = sum(each.milligrams for each in rows)
    exact = sum((each.exact_pence or Fraction(0) for each in rows), Fraction(0))
    share = Fraction(milligrams, all_milligrams) if all_milligrams else Fraction(0)
    return Sum(name, milligrams, pence(exact), share)


def table(rows: Iterable[Wasted], first: str, last: str) -> str:
    """A head row and one row for each reason, food and lesson (RFC 4180); no cell is a formula."""
    out = io.StringIO(newline="")
    lines = csv.writer(out)
    lines.writerow(HEADS)
    for each in rows:
        cost = "" if each.exact_pence is None else str(pence(each.exact_pence))
        words = map(cell, (first, last, each.reason, each.food, each.lesson))
        lines.writerow([*words, grams(each.milligrams).replace(",", ""), cost])
    return out.getvalue()
