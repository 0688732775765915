"""When a supplier can still deliver, and until when an order for it must be sent.

For the plan of a week. An order for a day is sent so many days before (``lead_days``), until the
supplier's cut-off. Days are counted as the calendar counts them. Times are the college's own.

On a closed day nothing is taken in, so no delivery comes; the order is then for an earlier day,
and what does not keep so long comes too late.

Worked example: a supplier who takes orders until 12:00, four days ahead, and delivers on
Tuesdays and Fridays: for Tuesday 16 February the order is sent by 12:00 on Friday 12 February.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from kitchen.stores.orders.problem import Drop

#: Food is in the stores a day before it is used, so that it is checked and weighed out; what keeps
#: a day or less comes on the day itself. Common practice, no source.
DAYS_BEFORE_USE = 1


@dataclass(frozen=True, slots=True)
class SupplierData:
    """Who delivers, and on which weekdays (1 is Monday)."""

    code: str
    name: str
    lead_days: int
    cut_off: time
    weekdays: tuple[int, ...]
    charge_pence: int = 0
    least_pence: int = 0
    #: Days on which nothing is taken in, and why: "the college is closed".
    closed: tuple[tuple[date, str], ...] = ()

    def delivers_on(self, day: date) -> bool:
        """Whether a van comes on that day."""
        return day.isoweekday() in self.weekdays and not self.why_closed(day)

    def why_closed(self, day: date) -> str:
        """Why nothing is taken in on that day; empty when it is."""
        return next((why for on, why in self.closed if on == day), "")

    def kept_away(self, first: date, last: date) -> tuple[tuple[date, str], ...]:
        """The days between two on which a van would come if they were not closed, and why they are."""
        return tuple(
            (on, why) for on, why in self.closed if first <= on <= last and on.isoweekday() in self.weekdays
        )

    def send_by(self, day: date) -> datetime:
        """The last moment to send an order that comes on that day."""
        return datetime.combine(day - timedelta(self.lead_days), self.cut_off)

    def days(self, first: date, last: date) -> Iterator[date]:
        """The delivery days from one day to another."""
        for more in range((last - first).days + 1):
            if self.delivers_on(first + timedelta(more)):
                yield first + timedelta(more)


def drops(
    suppliers: Iterable[SupplierData],
    first: date,
    last: date,
    now: datetime,
    paid: Iterable[tuple[str, date]],
) -> tuple[Drop, ...]:
    """The deliveries that can still be had; one that an order has paid for already costs nothing more."""
    known = set(paid)
    return tuple(
        Drop(supplier.code, day, 0, 0)
        if (supplier.code, day) in known
        else Drop(supplier.code, day, supplier.charge_pence, supplier.least_pence)
        for supplier in suppliers
        for day in supplier.days(first, last)
        if now <= supplier.send_by(day)
    )


def latest_chance(
    suppliers: Iterable[SupplierData], first: date, last: date
) -> tuple[datetime, SupplierData, date] | None:
    """The delivery between two days whose order could have been sent last: until when, who, and the day."""
    found = [
        (supplier.send_by(day), supplier, day) for supplier in suppliers for day in supplier.days(first, last)
    ]
    return max(found, key=lambda each: each[0], default=None)
