"""What the lessons behind an order need otherwise since its week was accepted last."""

from kitchen.lessons.models import Lesson
from kitchen.stores.orders.changed import changes, inputs_of
from kitchen.stores.orders.models import Order
from kitchen.stores.orders.page import ChangedRow, changed_rows
from kitchen.stores.orders.queries import COMING, food_words, plans_of, week_basis


def changed_since(order: Order) -> tuple[ChangedRow, ...]:
    """Needs of its foods that are others now; nothing of an order that has come, or has no week.

    The order comes from ``orders_with_lines``. A fixed number of queries.
    """
    if order.plan is None or order.state not in COMING:
        return ()
    plan = plans_of(order.plan.monday)[0]
    words = {line.pack.food.code: food_words(line.pack.food) for line in order.lines.all()}
    now = inputs_of(week_basis(order.plan.monday).served)
    found = [each for each in changes(plan.inputs, now) if each.line[2] in words]
    lessons = {each.line[0] for each in found}
    titles = dict(Lesson.objects.filter(code__in=lessons).values_list("code", "title"))
    return changed_rows(found, words, titles)
