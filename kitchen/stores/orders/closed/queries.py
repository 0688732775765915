"""Days on which nothing is taken in: the college is closed, or the stores are. A fixed number of queries."""

from dataclasses import dataclass
from datetime import date

from curriculum.courses.models import Holiday
from curriculum.people.queries import the_college, today_at
from kitchen.stores.orders.models import ClosedDay, Order

#: A day and why nothing is taken in on it, as sentences go on after "but".
Closed = tuple[tuple[date, str], ...]
COMING = (Order.State.DRAFT, Order.State.SENT)


def closed_days(first: date, last: date) -> Closed:
    """The closed days from one day to another. Two queries."""
    holidays = Holiday.objects.filter(on__range=(first, last)).values_list("on", "words")
    own = ClosedDay.objects.filter(on__range=(first, last)).values_list("on", "words")
    found = {on: _why("the stores take nothing in", words) for on, words in own}
    found |= {on: _why("the college is closed", words) for on, words in holidays}
    return tuple(sorted(found.items()))


def _why(closed: str, words: str) -> str:
    return f"{closed} ({words})" if words else closed


@dataclass(frozen=True)
class ClosedRow:
    """A closed day with its words, whether the stores may open it again, and the orders that come on it."""

    on: date
    words: str
    own: bool
    orders: tuple[Order, ...]


def closed_rows() -> list[ClosedRow]:
    """The closed days from today on. Four queries."""
    today = today_at(the_college())
    own = dict(ClosedDay.objects.filter(on__gte=today).values_list("on", "words"))
    holidays = dict(Holiday.objects.filter(on__gte=today).values_list("on", "words"))
    orders = list(
        Order.objects.filter(state__in=COMING, for_on__in=[*own, *holidays]).select_related("supplier")
    )
    return [
        ClosedRow(
            on,
            holidays.get(on, own.get(on, "")),
            on not in holidays,
            tuple(order for order in orders if order.for_on == on),
        )
        for on in sorted({*own, *holidays})
    ]
