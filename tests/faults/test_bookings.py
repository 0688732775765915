"""One slot, asked for by several at once: one has it, the others are told who."""

import pytest

from kitchen.lessons.models import Dish, Lesson, Shift
from tests.builders.cast import build_cast
from tests.faults.workshop import race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]

DAYS = 12


def test_a_slot_that_three_ask_for_at_once_is_given_once():
    build_cast()
    before = Lesson.objects.count()
    told = race("book", count=DAYS)
    for number in range(DAYS):
        answers = sorted(each[number] for each in told)
        assert answers == ["booked", "room_taken", "room_taken"]
    assert Lesson.objects.count() == before + DAYS
    assert Shift.objects.count() == Dish.objects.count() == Lesson.objects.count()
