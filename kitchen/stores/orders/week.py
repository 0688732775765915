"""What a week needs, what of it lies in stock on the day of use, and what is to be bought.

For the page of a week. Plain data in, plain data out.

1. Needs are served in the order of their days, each from the lots that may be used on that day
   (``kitchen.stores.allocation``: dates, held and reserved lots), the earliest date first. What
   lessons before the week still need is served first and not bought here. A lot that was opened
   or thawed ends so many days later, where the stores have said how long that food keeps. What
   is on order counts as a lot from its delivery on.
2. The par level is one more need, on the last day of the week, from what is left then.
3. What is missing of a food is bought together for as many days as it keeps after a delivery;
   for the days beyond, it is bought again.
4. Lessons of the weeks after are served last, from what is left then beside the par levels. What
   is missing for them may fill up a least order (``FoodUse``), so that it is food that is used.

Worked example: 1,000 g of cream, use by Tuesday. Lessons need 600 g on Tuesday and 600 g on
Thursday: Tuesday is covered and nothing is left for Thursday, though 400 g are on the shelf, so
600 g are bought. Had Thursday been Tuesday as well, 200 g would be.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import groupby

from kitchen.stores.allocation import LineNeed, LotData, Use, allocate
from kitchen.stores.orders.calendar import DAYS_BEFORE_USE
from kitchen.stores.orders.problem import Wanted

#: How many days a food keeps after delivery where nobody has said it for the food: common practice,
#: no source. The date on the pack and the college's own figure come first.
DAYS_AFTER_DELIVERY = {"chilled": 5, "frozen": 90, "ambient": 180}
#: From here on what is left over is stock whatever is planned. Common practice, no source.
KEEPS_FOR_LONG_DAYS = 60
#: For how many weeks after its own an order may be filled up, where the college has not said it:
#: our own choice, no source.
FILL_WEEKS = 4
#: What a kilogram thrown away costs besides its price (bags, bin, hands): common practice, no source.
WASTE_PENCE_PER_KILOGRAM = 50
#: The lesson of a par level.
PAR = ""


@dataclass(frozen=True, slots=True)
class Keeps:
    """How a food keeps: storage class, par level, days after delivery, opening, thawing (None: not said)."""

    storage: str = "ambient"
    par_milligrams: int = 0
    delivered_days: int | None = None
    opened_days: int | None = None
    thawed_days: int | None = None

    @property
    def days(self) -> int:
        """Days after delivery."""
        if self.delivered_days is not None:
            return self.delivered_days
        return DAYS_AFTER_DELIVERY[self.storage]

    def last_day(self, opened_on: date | None, thawed_on: date | None) -> date | None:
        """The last day on which an opened or thawed lot is used; None when nothing ends it."""
        ends = [
            on + timedelta(days)
            for on, days in ((opened_on, self.opened_days), (thawed_on, self.thawed_days))
            if on is not None and days is not None
        ]
        return min(ends, default=None)


@dataclass(frozen=True, slots=True)
class Stock:
    """A lot, or what is on order."""

    lot: LotData
    ordered: bool = False


@dataclass(frozen=True, slots=True)
class Need:
    """What a lesson (its code, or ``PAR``) needs of a food on a day.

    ``free_from``: some of it goes into free-from kits, so that reserved packs are stock for it.
    """

    lesson: str
    on: date
    food: str
    milligrams: int
    free_from: bool = False


@dataclass(frozen=True, slots=True)
class Served:
    """A need with what stock and orders give to it, and what could have been used of it on that day."""

    need: Need
    stock_milligrams: int
    ordered_milligrams: int
    usable_milligrams: int

    @property
    def missing_milligrams(self) -> int:
        """What is to be bought."""
        return self.need.milligrams - self.stock_milligrams - self.ordered_milligrams


@dataclass(frozen=True, slots=True)
class FoodUse:
    """What will be used of a food on a day after the week, and is neither in stock nor on order."""

    on: date
    milligrams: int


def with_par(needs: Iterable[Need], keeps: Mapping[str, Keeps], last: date) -> tuple[Need, ...]:
    """The needs and, last, the par levels, on that day."""
    pars = [Need(PAR, last, food, each.par_milligrams) for food, each in keeps.items() if each.par_milligrams]
    return (*needs, *sorted(pars, key=lambda need: need.food))


def serve(needs: Iterable[Need], stock: Iterable[Stock], later: Iterable[Need] = ()) -> tuple[Served, ...]:
    """Each need with what it gets, in the order of days; par levels come last, then what is ``later``."""
    by_food: dict[str, list[Stock]] = {}
    for each in stock:
        by_food.setdefault(each.lot.food, []).append(each)
    ordered = sorted(needs, key=lambda need: (need.lesson == PAR, need.on, need.lesson, need.food))
    ordered += sorted(later, key=lambda need: (need.on, need.lesson, need.food))
    return tuple(_serve(need, by_food.get(need.food, [])) for need in ordered)


def uses_of(served: Iterable[Served]) -> dict[str, tuple[FoodUse, ...]]:
    """What is still to be bought for lessons after the week, by food, in the order of days."""
    found: dict[str, dict[date, int]] = {}
    for each in served:
        if each.missing_milligrams:
            days = found.setdefault(each.need.food, {})
            days[each.need.on] = days.get(each.need.on, 0) + each.missing_milligrams
    return {
        food: tuple(FoodUse(on, milligrams) for on, milligrams in sorted(days.items()))
        for food, days in found.items()
    }


def _serve(need: Need, there: list[Stock]) -> Served:
    """One need; the lots lose what it takes."""
    open_lots = {each.lot.code: each for each in there if each.lot.on_hand_milligrams}
    lots = [_for(need, each.lot) for each in open_lots.values()]
    use = Use(need.on, need.lesson)
    everything = sum(lot.on_hand_milligrams for lot in lots) + need.milligrams
    usable = allocate([LineNeed(0, need.food, everything)], lots, use).draws
    drawn = dict(allocate([LineNeed(0, need.food, need.milligrams)], lots, use).by_lot(need.food))
    there[:] = [
        replace(
            each, lot=replace(each.lot, on_hand_milligrams=each.lot.on_hand_milligrams - drawn[each.lot.code])
        )
        if each.lot.code in drawn
        else each
        for each in there
    ]
    return Served(
        need,
        sum(grams for code, grams in drawn.items() if not open_lots[code].ordered),
        sum(grams for code, grams in drawn.items() if open_lots[code].ordered),
        sum(draw.milligrams for draw in usable if not open_lots[draw.lot].ordered),
    )


def _for(need: Need, lot: LotData) -> LotData:
    return replace(lot, reserved_free_from=False) if need.free_from else lot


def wanted(
    served: Iterable[Served], keeps: Mapping[str, Keeps], next_use: Mapping[str, date]
) -> tuple[Wanted, ...]:
    """What is missing, once a food for as many days as it keeps.

    ``next_use`` is the first day after the week on which a food is planned: what is left over and
    keeps until then is stock, and so is what has a par level or keeps for long; the rest is waste.
    """
    missing = sorted(
        (
            (each.need.food, each.need.on, each.missing_milligrams)
            for each in served
            if each.missing_milligrams
        ),
    )
    found = []
    for food, rows in groupby(missing, key=lambda row: row[0]):
        for first, last, milligrams in _stretches(list(rows), keeps[food].days):
            found.append(_wanted(food, first, last, milligrams, keeps[food], next_use.get(food)))
    return tuple(found)


def _stretches(rows: list[tuple[str, date, int]], days: int) -> list[tuple[date, date, int]]:
    """First and last day of use and the sum, for as many days as one delivery keeps."""
    found: list[tuple[date, date, int]] = []
    for _, on, milligrams in rows:
        if found and (on - by_on(found[-1][0], days)).days <= days:
            found[-1] = (found[-1][0], on, found[-1][2] + milligrams)
        else:
            found.append((on, on, milligrams))
    return found


def by_on(use_on: date, days: int) -> date:
    """The last delivery day for a use; what keeps a day or less comes on the day itself."""
    return use_on - timedelta(DAYS_BEFORE_USE if days > DAYS_BEFORE_USE else 0)


def _wanted(food: str, first: date, last: date, milligrams: int, keeps: Keeps, again: date | None) -> Wanted:
    by = by_on(first, keeps.days)
    stays = keeps.par_milligrams > 0 or keeps.days >= KEEPS_FOR_LONG_DAYS
    stays = stays or (again is not None and again <= by + timedelta(keeps.days))
    waste = 0 if stays else WASTE_PENCE_PER_KILOGRAM
    return Wanted(food, milligrams, last - timedelta(keeps.days), by, waste)
