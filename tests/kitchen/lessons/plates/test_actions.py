"""Plates are whole portions more a bench; asking again changes only the difference."""

from dataclasses import replace
from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from kitchen.lessons.actions import cancel_lesson, change_lesson
from kitchen.lessons.models import Lesson
from kitchen.lessons.plates.actions import Plates, keep_plates, plates_of
from kitchen.lessons.queries import order_of
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def kept(cast, *plates, **more):
    return keep_plates(lesson=cast.lesson, plates=Plates(*plates), by=cast.lecturer, **more)


def test_each_plate_is_one_portion_more_and_taking_one_back_is_one_fewer(cast):
    before = cast.lesson.dishes.get().portions_a_bench
    assert kept(cast, 1, 0, 1).portions_a_bench == before + 2
    dish = kept(cast, 0, 1, 0)
    assert (dish.portions_a_bench, plates_of(dish)) == (before + 1, Plates(0, 1, 0))
    assert kept(cast).portions_a_bench == before


def test_plates_out_of_the_portions_that_are_made_already_make_none_more_and_leave_one(cast):
    before = cast.lesson.dishes.get().portions_a_bench
    dish = kept(cast, 1, 0, 1, beside=False)
    assert (dish.portions_a_bench, dish.portions_for_learners) == (before, before - 2)
    with pytest.raises(RuleBroken) as refused:
        kept(cast, before, beside=False)
    assert refused.value.code == "no_portion_left"


def test_one_form_sent_twice_adds_once(cast):
    before, key = cast.lesson.dishes.get().portions_a_bench, uuid4()
    for _ in range(2):
        assert kept(cast, 2, key=key).portions_a_bench == before + 2


def test_a_cancelled_or_run_lesson_makes_no_plate(cast):
    cancel_lesson(lesson=cast.lesson, why="No gas.", by=cast.lecturer)
    for state, code in (("cancelled", "lesson_cancelled"), ("run", "lesson_run")):
        Lesson.objects.filter(pk=cast.lesson.pk).update(state=state)
        with pytest.raises(RuleBroken) as refused:
            kept(cast, 1)
        assert refused.value.code == code


def test_fewer_portions_than_plates_leave_no_plate(cast):
    kept(cast, 2)
    order = replace(order_of(cast.lesson), portions_a_bench=2)
    change_lesson(lesson=cast.lesson, order=order, by=cast.lecturer)
    dish = cast.lesson.dishes.get()
    assert (dish.portions_a_bench, dish.plates) == (2, 0)
