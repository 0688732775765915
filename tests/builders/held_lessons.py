"""Quiche lessons that were held, week by week, with what was given later and what came back."""

from datetime import time, timedelta

from django.db.models import Sum

from curriculum.foods.models import Food
from curriculum.people.models import Group, Student, User
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.rooms.models import Bench, Room
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.models import KitLine, Lot
from kitchen.stores.moves.lesson.actions import give_more, take_back_from_lesson
from kitchen.stores.moves.lesson.back import CameBack
from tests.builders.book import a_person
from tests.builders.stores import QUICHE_DAY, a_lot, the_book

GRAM = 1000
FLOUR = "soft_wheat_flour"


def held_lesson(weeks_ago: int, benches: int = 3, **more: object) -> Lesson:
    """A lesson so many weeks before the day of the quiche; its kits have left."""
    lesson = a_quiche(weeks_ago, benches, **more)
    kit_set = accept_kits(lesson=lesson, by=a_person("hana", "stores"))
    lines = KitLine.objects.filter(kit__kit_set=kit_set, stock_milligrams__gt=0)
    for food, stock in lines.values_list("food__code").annotate(sum=Sum("stock_milligrams")).order_by():
        a_lot(food, f"{lesson.code}-{food}"[:20], stock // GRAM + 2000, received_on=lesson.on)
    issue_kits(lesson=lesson, by=a_person("hana", "stores"), short_accepted=True)
    return lesson


def a_quiche(weeks_ago: int, benches: int = 3, **more: object) -> Lesson:
    """A lesson booked with its benches given out; minus so many weeks is one to come."""
    lecturer, version = a_person("marek"), the_book()["R01"]
    room, _ = Room.objects.get_or_create(code="juniper", defaults={"name": "Juniper", "purpose": "general"})
    group, _ = Group.objects.get_or_create(code="G-R01", year=2026, defaults={"lecturer": lecturer})
    said = {"title": "Quiche", "on": QUICHE_DAY - timedelta(weeks=weeks_ago), "starts": time(9)}
    said |= {"minutes": 180, "room": room, "group": group, "lecturer": lecturer, "state": "run"} | more
    lesson = Lesson.objects.create(code=f"HELD{Lesson.objects.count():04}", **said)
    shift = Shift.objects.create(lesson=lesson, number=1, starts=time(9), minutes=180)
    dish = Dish.objects.create(lesson=lesson, version=version, portions_a_bench=8)
    for number in range(1, benches + 1):
        bench, _ = Bench.objects.get_or_create(room=room, number=number)
        place = Place.objects.create(
            shift=shift, bench=bench, dish=dish, version=version, code=f"H{Place.objects.count()}"
        )
        PlaceLearner.objects.create(place=place, shift=shift, student=_learner(number))
    return lesson


def _learner(number: int) -> Student:
    """Who works at the bench of this number: kits are made for benches that are given out."""
    user, _ = User.objects.get_or_create(username=f"held-{number}", defaults={"name": f"Learner {number}"})
    return Student.objects.get_or_create(user=user, defaults={"college_number": user.username})[0]


def given(lesson: Lesson, grams: int, reason: str = "Not enough in the kit", food: str = FLOUR) -> None:
    """So much was given later to bench 1."""
    give_more(
        lesson=lesson,
        place=Place.objects.filter(shift__lesson=lesson).order_by("bench__number").first(),
        food=Food.objects.get(code=food),
        milligrams=grams * GRAM,
        reason=reason,
        by=a_person("hana", "stores"),
    )


def came_back(
    lesson: Lesson,
    sealed: int = 0,
    opened: int = 0,
    to: str = "",
    food: str = FLOUR,
    code: str | None = None,
) -> None:
    """So many grams came back of what left."""
    lot = Lot.objects.filter(movements__kit_line__kit__kit_set__lesson=lesson, food__code=food).first()
    take_back_from_lesson(
        lesson=lesson,
        rows=[CameBack(lot.pk, sealed * GRAM, opened * GRAM, to, code)],
        sealed_and_cold=True,
        by=a_person("hana", "stores"),
    )
