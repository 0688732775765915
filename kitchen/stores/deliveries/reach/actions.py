"""What is demanded of a date at the door, and again when a substitute is accepted.

For ``kitchen.stores.deliveries.actions``, within its transactions. Nothing is written here.
"""

from collections.abc import Iterable
from datetime import date

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from kitchen.lessons.models import Lesson
from kitchen.stores.deliveries import check
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import Delivery, DeliveryLine
from kitchen.stores.deliveries.reach.dates import does_not_reach
from kitchen.stores.deliveries.reach.queries import last_day_of, use_of, uses_of
from kitchen.stores.orders.models import OrderLine


def demand_date(delivery: Delivery, entry: LineEntry, food: Food, on: date, rule: check.Rule) -> str:
    """What is short about the date of a line that is taken in; a reason stands beside it then.

    RuleBroken "past_use_by" whatever the reason, "short_dated" without one.
    """
    gone = check.past(entry.date_kind, entry.dated_on, on)
    if gone:
        raise RuleBroken("past_use_by", gone, field="dated_on")
    few = check.short_dated(entry.date_kind, entry.dated_on, on, rule)
    short = f"{few} {_missed(delivery, entry, food, on)}".strip()
    if short and not entry.short_date_why:
        words = f"{short} Reject it, or write why it is taken in with that date."
        raise RuleBroken("short_dated", words, field="short_date_why")
    return short


def _missed(delivery: Delivery, entry: LineEntry, food: Food, on: date) -> str:
    """The lessons that a line does not reach: those of what came and of what was ordered."""
    last = last_day_of(food.pk, entry.date_kind, entry.dated_on, delivery.on)
    if last is None:
        return ""
    ordered = OrderLine.objects.filter(pk=entry.order_line).values_list("pack__food", flat=True)
    return does_not_reach(last, uses_of(delivery, {food.pk, *ordered}, on), on)


def demand_reached(line: DeliveryLine, lessons: Iterable[Lesson]) -> None:
    """RuleBroken "past_its_date" for a lesson after the use-by date: no kit could leave with it."""
    last = last_day_of(line.food_id, line.date_kind, line.date, line.delivery.on)
    if last is None or not last.is_law:
        return
    rows = Lesson.objects.select_related("group").filter(pk__in=[lesson.pk for lesson in lessons])
    missed = does_not_reach(last, [use_of(row) for row in rows.order_by("on", "pk")], line.delivery.on)
    if missed:
        raise RuleBroken("past_its_date", f"{missed} Take its tick away.", field="lessons")
