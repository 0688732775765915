"""The lessons of the weeks after a week, and what they will use: a fixed number of queries."""

from datetime import date, timedelta

from django.db.models import Count, Exists, F, OuterRef, Q, QuerySet

from curriculum.courses.models import PlannedLesson
from curriculum.recipes.models import Line, Version
from kitchen.lessons.models import Dish, Lesson
from kitchen.stores.models import Requisition, RequisitionLine
from kitchen.stores.orders.coming.planned import Cooking, Written, planned_needs
from kitchen.stores.orders.models import OrderRule
from kitchen.stores.orders.week import FILL_WEEKS, Need

NOT_ASKED = (Requisition.State.SUPERSEDED, Requisition.State.WITHDRAWN)


def fill_weeks() -> int:
    """For how many weeks after its own an order may be filled up. One query."""
    return next(iter(OrderRule.objects.values_list("fill_weeks", flat=True)), FILL_WEEKS)


def later_needs(sunday: date, weeks: int) -> tuple[Need, ...]:
    """What lessons of so many weeks after that Sunday ask for or will use. Four queries."""
    days = (sunday + timedelta(1), sunday + timedelta(7 * weeks))
    lessons = [*_booked(days), *_planned(days)]
    return (*_asked(days), *planned_needs(lessons, _written({each.version for each in lessons})))


def _asked(days: tuple[date, date]) -> list[Need]:
    rows = RequisitionLine.objects.filter(requisition__lesson__on__range=days)
    rows = rows.exclude(requisition__state__in=NOT_ASKED)
    rows = rows.exclude(requisition__lesson__state=Lesson.State.CANCELLED).order_by("pk")
    said = ("requisition__lesson__code", "requisition__lesson__on", "food__code", "milligrams")
    return [Need(*row) for row in rows.values_list(*said) if row[-1]]


def _learners(group: str) -> Count:
    there = Q(**{f"{group}__memberships__until_on": None}) | Q(
        **{f"{group}__memberships__until_on__gte": F("on" if group == "course__group" else "lesson__on")}
    )
    return Count(f"{group}__memberships", filter=there)


def _booked(days: tuple[date, date]) -> list[Cooking]:
    """Lessons that are booked, and nobody has asked for their food yet."""
    asked = Requisition.objects.filter(lesson=OuterRef("lesson")).exclude(state__in=NOT_ASKED)
    rows = Dish.objects.filter(~Exists(asked), lesson__on__range=days)
    rows = rows.exclude(lesson__state=Lesson.State.CANCELLED).annotate(learners=_learners("lesson__group"))
    return [
        Cooking(code, on, version, learners, portions, working == Dish.Working.SINGLE)
        for code, on, version, learners, portions, working in rows.order_by("pk").values_list(
            "lesson__code", "lesson__on", "version", "learners", "portions_a_bench", "working"
        )
    ]


def _planned(days: tuple[date, date]) -> list[Cooking]:
    """Lessons of an accepted scheme of work that are not booked yet."""
    booked = Lesson.objects.filter(group=OuterRef("course__group"), on=OuterRef("on"))
    approved = Q(recipe__versions__state=Version.State.APPROVED)
    rows = PlannedLesson.objects.filter(~Exists(booked), approved, on__range=days, recipe__isnull=False)
    rows = rows.filter(state=PlannedLesson.State.ACCEPTED).annotate(learners=_learners("course__group"))
    return [
        Cooking(f"planned {key}", on, version, learners)
        for key, on, version, learners in rows.order_by("pk").values_list(
            "pk", "on", "recipe__versions", "learners"
        )
    ]


def _written(versions: set[int]) -> dict[int, Written]:
    """The recipes as they are written, without what is made from another food or comes from the tap."""
    rows: QuerySet = Line.objects.filter(
        component__version__in=versions, food__made_from=None, food__from_tap=False
    )
    portions: dict[int, int] = {}
    lines: dict[int, list[tuple[str, int]]] = {}
    for version, stated, food, milligrams in rows.order_by("pk").values_list(
        "component__version", "component__version__portions_stated", "food__code", "milligrams"
    ):
        portions[version] = stated
        lines.setdefault(version, []).append((food, milligrams))
    return {version: Written(portions[version], tuple(found)) for version, found in lines.items()}
