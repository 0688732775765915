"""Which packs of an answer only fill up a least order, and in which weeks they will be used.

For the page of a week, the order and its papers. Of the packs of a food the largest that can be
left out with the need still covered are those that fill up. What they bring is used by the
lessons of the coming weeks in turn, after what is left over anyhow.

Worked example: 1,000 g of flour are needed, three packs of 1,000 g are bought; lessons use 900 g in
the week of 1 March and 2,000 g in that of 8 March. Two packs fill up, for both weeks.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from curriculum.wording import counted, long_date
from kitchen.stores.orders.problem import Answer, Ask, Buy
from kitchen.stores.orders.week import FoodUse


@dataclass(frozen=True, slots=True)
class Filling:
    """So many packs that only fill up, with the Mondays of the first and the last week that use them."""

    packs: int
    first: date
    last: date

    @property
    def words(self) -> str:
        """ "2 packs only fill up the least order, used in the weeks of 1 to 8 March"."""
        return filling_words(self.packs, self.first, self.last)


def filling_words(packs: int, first: date, last: date) -> str:
    """What is said of packs that only fill up."""
    does = "fills" if packs == 1 else "fill"
    week = f"the week of {long_date(first, last)}"
    weeks = f"the weeks of {long_date(first, last)} to {long_date(last, last)}"
    return (
        f"{counted(packs, 'pack')} only {does} up the least order, used in {week if first == last else weeks}"
    )


def fillings(
    ask: Ask, answer: Answer, uses: Mapping[str, tuple[FoodUse, ...]]
) -> dict[tuple[date, int], Filling]:
    """What fills up, by delivery day and pack (its key)."""
    found: dict[tuple[date, int], Filling] = {}
    for at, want in enumerate(ask.wanted):
        buys = [buy for buy in answer.buys if buy.wanted == at]
        over = sum(buy.count * buy.pack.milligrams for buy in buys) - want.milligrams
        spare = _spare(buys, over)
        weeks = _weeks(uses.get(want.food, ()), over) if spare else ()
        for buy, packs in spare if weeks else ():
            key = (buy.drop.on, buy.pack.key)
            before = found[key].packs if key in found else 0
            found[key] = Filling(before + packs, weeks[0], weeks[-1])
    return found


def _spare(buys: list[Buy], over: int) -> list[tuple[Buy, int]]:
    """The packs that can be left out, the largest first."""
    found = []
    for buy in sorted(buys, key=lambda each: (-each.pack.milligrams, each.drop.on)):
        packs = min(buy.count, over // buy.pack.milligrams)
        over -= packs * buy.pack.milligrams
        if packs:
            found.append((buy, packs))
    return found


def _weeks(uses: tuple[FoodUse, ...], over: int) -> tuple[date, ...]:
    """The Mondays of the weeks that use so much, in their order."""
    found: dict[date, None] = {}
    for use in uses:
        if over > 0:
            found[use.on - timedelta(use.on.weekday())] = None
            over -= use.milligrams
    return tuple(found)
