"""Weeks of many lessons whose requisitions are approved, from the invented college's foods and packs."""

from datetime import date, time, timedelta

from curriculum.foods.models import Food
from curriculum.people.models import College, Group
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Room
from kitchen.stores.models import Requisition, RequisitionLine
from tests.builders.book import a_book, a_person

MONDAY = date(2027, 2, 22)
FOODS_A_LESSON = 20


def a_week_of(lessons: int) -> date:
    """So many lessons over five days, each asking for twenty foods; its Monday. The stores are empty."""
    a_book("R01")
    College.objects.update(shown_today=MONDAY - timedelta(11))
    lecturer = a_person("marek")
    room = Room.objects.create(code="week", name="Week Kitchen", purpose="general")
    group = Group.objects.create(code="G-WEEK", year=2026, name="A group", lecturer=lecturer)
    foods = list(Food.objects.filter(from_tap=False, packs__isnull=False).distinct().order_by("code"))
    for number in range(lessons):
        lesson = Lesson.objects.create(
            code=f"WEEK{number:04}",
            title=f"Lesson {number + 1}",
            on=MONDAY + timedelta(number % 5),
            starts=time(9),
            minutes=180,
            room=room,
            group=group,
            lecturer=lecturer,
        )
        row = Requisition.objects.create(lesson=lesson, number=1, state="approved", by=lecturer)
        RequisitionLine.objects.bulk_create(
            RequisitionLine(
                requisition=row,
                food=foods[(number * 7 + at * 3) % len(foods)],
                milligrams=((number + at) % 9 + 1) * 137_000,
                why=f"line {at}",
            )
            for at in range(FOODS_A_LESSON)
        )
    return MONDAY
