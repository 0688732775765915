"""What lessons after a week use: asked for, booked or in a scheme of work, each once; so many queries."""

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.courses.models import Course, PlannedLesson
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Requisition, RequisitionLine
from kitchen.stores.orders.coming.queries import fill_weeks, later_needs
from kitchen.stores.orders.models import OrderRule
from kitchen.stores.requisitions.actions import submit_requisition
from tests.builders.stores import quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
SUNDAY = date(2027, 2, 14)


@pytest.fixture
def stage():
    return quiche_stage()


def flour(weeks=1):
    return sum(need.milligrams for need in later_needs(SUNDAY, weeks) if need.food == "soft_wheat_flour")


def test_a_booked_lesson_is_reckoned_by_its_recipe_and_once_it_is_asked_for_by_that(stage):
    assert flour() > 0
    row = submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    asked = sum(line.milligrams for line in row.lines.filter(food__code="soft_wheat_flour"))
    assert flour() == asked
    Lesson.objects.update(state=Lesson.State.CANCELLED)
    assert flour() == 0


def test_a_lesson_outside_the_weeks_is_not_counted(stage):
    Lesson.objects.update(on=SUNDAY + timedelta(8))
    assert (flour(1), flour(2) > 0, flour(0)) == (0, True, 0)


def test_a_scheme_of_work_counts_until_its_lesson_is_booked(stage):
    course = Course.objects.create(code="c", name="A course", group=stage.lesson.group)
    recipe = stage.lesson.dishes.get().version.recipe
    on = stage.lesson.on + timedelta(7)
    PlannedLesson.objects.create(course=course, week=2, on=on, kind="practical", recipe=recipe)
    booked, both = flour(1), flour(2)
    assert both > booked
    Lesson.objects.create(
        code="BOOKED22",
        title="Booked",
        on=on,
        starts="09:00",
        minutes=180,
        room=stage.lesson.room,
        group=stage.lesson.group,
        lecturer=stage.lecturer,
    )
    assert flour(2) == booked


def test_the_weeks_are_ours_until_the_stores_set_them(stage):
    assert fill_weeks() == 4
    OrderRule.objects.create(pk=1, fill_weeks=2, by=stage.stores)
    assert fill_weeks() == 2


def test_as_many_queries_for_thirty_lessons_as_for_three(stage):
    def queries(count):
        for number in range(count):
            lesson = Lesson.objects.create(
                code=f"N{Lesson.objects.count():07}",
                title="More",
                on=stage.lesson.on + timedelta(number % 3),
                starts="13:00",
                minutes=180,
                room=stage.lesson.room,
                group=stage.lesson.group,
                lecturer=stage.lecturer,
            )
            row = Requisition.objects.create(lesson=lesson, number=1, state="approved", by=stage.lecturer)
            food = stage.lesson.dishes.get().version.components.first().lines.first().food
            RequisitionLine.objects.create(requisition=row, food=food, milligrams=1000, why="line")
        with CaptureQueriesContext(connection) as found:
            later_needs(SUNDAY, 4)
        return len(found)

    assert queries(3) == queries(27) <= 4
