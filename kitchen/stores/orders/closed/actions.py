"""What the stores settle for their orders: closed days, and for how many weeks one is filled up."""

from datetime import date
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from curriculum.wording import long_date
from kitchen.stores.orders.closed.queries import closed_days
from kitchen.stores.orders.models import ClosedDay, OrderRule


@transaction.atomic
def close_day(*, on: date, words: str, by: User, key: UUID | None = None) -> ClosedDay:
    """Take nothing in on a day. RuleBroken "closed_already". Orders for that day stay: a person decides."""

    def do() -> dict:
        known = dict(closed_days(on, on))
        if on in known:
            raise RuleBroken("closed_already", f"On {long_date(on, on)} {known[on]} already.", field="on")
        return {"day": ClosedDay.objects.create(on=on, words=words, by=by).pk}

    said = {"on": str(on), "words": words}
    return ClosedDay.objects.get(pk=once(key=key, action="close_day", by=by, said=said, do=do)["day"])


@transaction.atomic
def open_day(*, on: date, by: User) -> None:
    """Take in on that day again; a day that is not closed stays as it is."""
    ClosedDay.objects.filter(on=on).delete()


@transaction.atomic
def set_fill_weeks(*, weeks: int, by: User) -> OrderRule:
    """For how many weeks after its own an order may be filled up."""
    row, _ = OrderRule.objects.update_or_create(pk=1, defaults={"fill_weeks": weeks, "by": by})
    return row
