"""What was thrown away between two days, from the ledger; a correction counts under what it corrects."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from fractions import Fraction

from django.db.models import F, Q, QuerySet, Sum
from django.db.models.functions import Coalesce
from django.utils import timezone

from curriculum import wording
from curriculum.foods.costs import cost_of
from curriculum.foods.models import Food
from curriculum.foods.queries import prices
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Movement
from kitchen.stores.moves.lesson.queries import use_as_bought
from kitchen.stores.moves.listed.queries import reasons_of
from kitchen.stores.moves.wasted import sums
from kitchen.stores.moves.wasted.sums import Wasted

#: What stands where a movement has no reason of the list, and where it was no lesson's.
NO_REASON, NO_LESSON = "No reason of the list", "In the stores, for no lesson"


@dataclass(frozen=True, slots=True)
class WastePage:
    """The sums of a span of days; ``without_price`` names foods that cost nothing here."""

    rows: tuple[Wasted, ...]
    by_reason: tuple[sums.Sum, ...]
    by_food: tuple[sums.Sum, ...]
    by_lesson: tuple[sums.Sum, ...]
    together: sums.Sum
    without_price: str


def waste_page(first: date, last: date) -> WastePage:
    """The three sums. Five queries at most."""
    rows = wasted_between(first, last)
    missing = sorted({each.food for each in rows if each.exact_pence is None})
    return WastePage(
        rows,
        sums.summed(rows, lambda each: each.reason),
        sums.summed(rows, lambda each: each.food),
        sums.summed(rows, lambda each: each.lesson),
        sums.total(rows),
        wording.listed(missing),
    )


def wasted_between(first: date, last: date) -> tuple[Wasted, ...]:
    """One row for each reason, food and lesson, at the prices of the last day. Five queries at most."""
    moved = list(_moved(first, last))
    words = {each.code: each.words for each in reasons_of("waste")}
    foods = Food.objects.filter(pk__in={row["food"] for row in moved}).select_related("made_from")
    named = {food.pk: food for food in foods}
    keys = {row["lesson"] for row in moved if row["lesson"]}
    lessons = {each.pk: each for each in Lesson.objects.filter(pk__in=keys).select_related("group")}
    costed = prices(last, {(food.made_from or food).code for food in named.values()})
    rows = []
    for row in moved:
        use = use_as_bought(named[row["food"]], -row["moved"])
        cost: Fraction | None = cost_of(use, costed[use.food]) if use.food in costed else None
        reason = words.get(row["code"] or "", NO_REASON)
        lesson = lesson_words(lessons[row["lesson"]]) if row["lesson"] else NO_LESSON
        rows.append(Wasted(reason, named[row["food"]].name, lesson, -row["moved"], cost))
    return tuple(sorted(rows, key=lambda each: (each.reason, each.food, each.lesson)))


def lesson_words(lesson: Lesson) -> str:
    """ "Leek quiche, PT2, 16 Feb"."""
    return f"{lesson.title}, {lesson.group.code}, {wording.short_date(lesson.on)}"


def _moved(first: date, last: date) -> QuerySet:
    """What a lesson threw away belongs to the lesson's day, everything else to the day it was written."""
    zone = timezone.get_current_timezone()
    since = datetime.combine(first, time(), zone)
    until = datetime.combine(last + timedelta(1), time(), zone)
    rows = Movement.objects.annotate(
        way=Coalesce("corrects__kind", "kind"),
        code=Coalesce("corrects__reason_code", "reason_code"),
        when=Coalesce("corrects__at", "at"),
        food=F("lot__food"),
        lesson=Coalesce("kit_line__kit__kit_set__lesson", "lot__made_in"),
        on=Coalesce("kit_line__kit__kit_set__lesson__on", "lot__made_in__on"),
    )
    within = Q(on__gte=first, on__lte=last) | Q(on=None, when__gte=since, when__lt=until)
    rows = rows.filter(within, way=Movement.Kind.WASTE).order_by("food", "code", "lesson")
    return rows.values("food", "code", "lesson").annotate(moved=Sum("milligrams")).exclude(moved=0)
