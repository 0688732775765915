"""The words of a requisition: what changed line by line, who brings a food too late, what hangs on it.

For the page of a requisition, its sheet and the stores' list of what waits. Plain data in, words
out, so that the page, the paper and the tests say the same.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from curriculum import wording
from kitchen.stores.orders.page import FoodWords
from kitchen.stores.requisitions.difference import Difference
from kitchen.stores.requisitions.late import Bought, Chance, late_words, minutes_late
from kitchen.stores.requisitions.reasons import REASONS, Asked, rank

#: What stands before a difference, and beside a food that was not there before or is gone.
KINDS = {"new": "new food", "gone": "no more", "more": "", "less": ""}


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """A food of which more or less is asked for: "480 g", "640 g", "160 g more", and why."""

    food: str
    before: str
    now: str
    difference: str
    kind: str
    why: str


@dataclass(frozen=True, slots=True)
class LateRow:
    """A food that is missing and that one or all of its suppliers bring too late."""

    food: str
    words: tuple[str, ...]
    nobody: bool


@dataclass(frozen=True, slots=True)
class OrderRow:
    """An order that holds a food of which more or less is asked for now."""

    code: str
    supplier: str
    state: str
    words: str


def change_rows(found: Iterable[Difference], foods: Mapping[str, FoodWords]) -> tuple[ChangeRow, ...]:
    """What changed, by the name of the food."""
    rows = (_change_row(each, foods[each.food]) for each in found)
    return tuple(sorted(rows, key=lambda row: row.food))


def reason_words(asked: Iterable[Asked], food: FoodWords) -> str:
    """ "kits of the benches 910 g, spare 130 g": nothing where there is one reason only."""
    shares = sorted(asked, key=lambda each: rank(each.why))
    if len(shares) < 2:
        return "" if not shares or shares[0].why == REASONS[0] else shares[0].why
    return ", ".join(f"{each.why} {food.amount(each.milligrams)}" for each in shares)


def late_rows(
    found: Iterable[Bought], foods: Mapping[str, FoodWords], there: Mapping[str, int], now: datetime
) -> tuple[LateRow, ...]:
    """The foods that somebody brings too late, those that nobody brings in time first."""
    rows = [
        LateRow(foods[each.missing.food].name, tuple(_late(each, foods, there, now)), each.late)
        for each in found
        if each.late or each.past
    ]
    return tuple(sorted(rows, key=lambda row: (not row.nobody, row.food)))


def moment(at: datetime) -> str:
    """ "12:00 on Friday 12 February"."""
    return f"{wording.clock(at.time())} on {wording.long_date(at.date(), at.date())}"


def order_words(ordered: str, food: FoodWords, difference: int) -> str:
    """What an order holds of a food, and what to do about it."""
    amount = food.amount(abs(difference))
    if difference < 0:
        return f"It holds {ordered}, and {amount} less is asked for now."
    return f"It holds {ordered}, and {amount} more is asked for now."


def _change_row(found: Difference, food: FoodWords) -> ChangeRow:
    more = "more" if found.milligrams > 0 else "less"
    why = ", ".join(
        f"{reason} {food.amount(abs(share))} {'more' if share > 0 else 'less'}"
        for reason, share in found.reasons
    )
    return ChangeRow(
        food=food.name,
        before=food.amount(found.before_milligrams) if found.before_milligrams else "nothing",
        now=food.amount(found.now_milligrams) if found.now_milligrams else "nothing",
        difference=f"{food.amount(abs(found.milligrams))} {more}",
        kind=KINDS[found.kind],
        why=why,
    )


def _late(
    found: Bought, foods: Mapping[str, FoodWords], there: Mapping[str, int], now: datetime
) -> Iterable[str]:
    food, missing = foods[found.missing.food], found.missing
    stock = there.get(missing.food, 0)
    yield f"{food.amount(missing.milligrams)} is missing; {_stock(stock, food)}."
    for chance in found.past:
        yield _past(chance, now)
    for chance in found.can:
        yield f"{chance.supplier.name} still brings it: order by {moment(chance.send_by)}."
    if found.none:
        yield f"{wording.listed(found.none)} sells it, and does not come while it would keep."
    if found.late:
        yield _nobody(found, stock)


def _stock(milligrams: int, food: FoodWords) -> str:
    return f"{food.amount(milligrams)} of it is in stock" if milligrams else "none of it is in stock"


def _past(chance: Chance, now: datetime) -> str:
    late = late_words(minutes_late(chance, now))
    return f"{chance.supplier.name} took orders for it until {moment(chance.send_by)}: {late} too late."


def _nobody(found: Bought, stock: int) -> str:
    instead = "cook with what is in stock" if stock else "cook without it"
    if not found.past and not found.none:
        return f"No supplier on the list sells it. Buy it elsewhere, or {instead}."
    return f"Nobody brings it in time by the calendar. Ask the supplier, or {instead}."
