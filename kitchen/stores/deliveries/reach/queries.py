"""Which coming lessons cook with a food, and which of them come after the last day of what is delivered.

For the delivery check, and for the decision on a substitute.
"""

from collections.abc import Iterable
from datetime import date, timedelta

from django.db.models import Q, QuerySet

from curriculum.recipes.models import Line
from kitchen.lessons.models import Dish, Lesson
from kitchen.lessons.queries import places_taken
from kitchen.stores.deliveries.models import Delivery
from kitchen.stores.deliveries.reach.dates import Last, LessonUse, last_of
from kitchen.stores.orders.models import Keeping

#: What was bought without a plan of a week is for the lessons of so many days (our own choice, no source).
DAYS_WITHOUT_A_PLAN = 7


def lessons_cooking(foods: Iterable[int], today: date) -> QuerySet[Lesson]:
    """Lessons of today and later that cook with one of these foods (keys), or with what is made from it."""
    keys = list(foods)
    uses = Line.objects.filter(Q(food__in=keys) | Q(food__made_from__in=keys)).values("component__version")
    cooking = Q(pk__in=Dish.objects.filter(version__in=uses).values("lesson")) | Q(
        pk__in=places_taken().filter(version__in=uses).values("shift__lesson")
    )
    rows = Lesson.objects.filter(cooking, on__gte=today).select_related("group", "room", "lecturer")
    return rows.exclude(state=Lesson.State.CANCELLED).order_by("on", "starts", "pk")


def uses_of(delivery: Delivery, foods: Iterable[int], on: date) -> tuple[LessonUse, ...]:
    """The lessons for which one of these foods was bought: of the week of its order, or of the next days.

    For a substitute both foods are given: that which came and that which was ordered. Two queries.
    """
    plan = delivery.order.plan if delivery.order else None
    until = plan.monday + timedelta(6) if plan else on + timedelta(DAYS_WITHOUT_A_PLAN)
    rows = lessons_cooking(foods, on).filter(on__lte=max(until, on))
    return tuple(use_of(row) for row in rows)


def use_of(lesson: Lesson) -> LessonUse:
    """A lesson as a refusal names it."""
    return LessonUse(f"{lesson.title}, {lesson.group.code}", lesson.on)


def last_day_of(food: int, kind: str, dated_on: date | None, came_on: date) -> Last | None:
    """The last day of a food that is delivered, by its own date or by the days it is kept. One query."""
    kept = Keeping.objects.filter(food=food).values_list("delivered_days", flat=True).first()
    return last_of(kind, dated_on, came_on, kept)
