"""Which foods of a requisition come too late for a supplier, by how much, and who still can.

For the page of a requisition and the stores' list of what waits. Plain data in, plain data out;
the calendar is ``kitchen.stores.orders.calendar``.

Worked example: cream is missing for Tuesday 16 February. The dairy takes orders until 12:00 one
day ahead and comes daily, the food must be there on Monday: the last moment is Sunday 14 February
at 12:00. At 15:00 on that Sunday it is three hours late; the wholesaler, until 18:00 one day
ahead, still can.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.orders.week import by_on
from kitchen.stores.packs import PackData


@dataclass(frozen=True, slots=True)
class Missing:
    """What is not in stock of a food that is used on a day, and how many days it keeps."""

    food: str
    milligrams: int
    use_on: date
    keeps_days: int


@dataclass(frozen=True, slots=True)
class Chance:
    """The delivery of a supplier whose order can be sent last, and until when."""

    supplier: SupplierData
    on: date
    send_by: datetime


@dataclass(frozen=True, slots=True)
class Bought:
    """A food that is missing: suppliers whose last moment is past, and those who still can, cheapest first.

    ``none`` names suppliers who sell it and never come while it would keep.
    """

    missing: Missing
    past: tuple[Chance, ...] = ()
    can: tuple[Chance, ...] = ()
    none: tuple[str, ...] = ()

    @property
    def late(self) -> bool:
        """Whether nobody who sells it can deliver in time any more."""
        return not self.can

    @property
    def send_by(self) -> datetime | None:
        """The last moment at which anybody can still be asked."""
        return max((each.send_by for each in self.can), default=None)


def bought(
    missing: Iterable[Missing],
    packs: Iterable[PackData],
    suppliers: Mapping[str, SupplierData],
    now: datetime,
) -> tuple[Bought, ...]:
    """Each missing food with who is too late and who is not, in the order given."""
    sold = list(packs)
    return tuple(_bought(each, sold, suppliers, now) for each in missing)


def minutes_late(chance: Chance, now: datetime) -> int:
    """Whole minutes by which a moment has passed, a begun one counted."""
    return -(-int((now - chance.send_by).total_seconds()) // 60)


def late_words(minutes: int) -> str:
    """ "20 min", "3 h", "2 days": in the largest unit, a begun one not counted."""
    if minutes < 60:
        return f"{minutes} min"
    if minutes < 48 * 60:
        return f"{minutes // 60} h"
    return f"{minutes // (24 * 60)} days"


def _bought(
    missing: Missing, packs: list[PackData], suppliers: Mapping[str, SupplierData], now: datetime
) -> Bought:
    found = [(each, _chance(suppliers[each], missing)) for each in _sellers(missing, packs)]
    chances = [chance for _, chance in found if chance is not None]
    return Bought(
        missing,
        past=tuple(each for each in chances if now > each.send_by),
        can=tuple(each for each in chances if now <= each.send_by),
        none=tuple(suppliers[code].name for code, chance in found if chance is None),
    )


def _sellers(missing: Missing, packs: list[PackData]) -> list[str]:
    """Who sells the food on the day of use, the cheapest by weight first."""
    priced: dict[str, float] = {}
    for pack in packs:
        ends = pack.until_on is None or pack.until_on >= missing.use_on
        if pack.food == missing.food and pack.from_on <= missing.use_on and ends:
            price = pack.pence / pack.milligrams
            priced[pack.supplier] = min(price, priced.get(pack.supplier, price))
    return sorted(priced, key=lambda code: (priced[code], code))


def _chance(supplier: SupplierData, missing: Missing) -> Chance | None:
    """The last delivery that is in time and still good on the day; the latest moment to ask for it."""
    first = missing.use_on - timedelta(missing.keeps_days)
    days = supplier.days(first, by_on(missing.use_on, missing.keeps_days))
    found = [(supplier.send_by(day), day) for day in days]
    if not found:
        return None
    send_by, day = max(found)
    return Chance(supplier, day, send_by)
