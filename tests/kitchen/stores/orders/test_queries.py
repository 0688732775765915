"""What a week reads: approved requisitions only, nothing that has left, and a fixed number of queries."""

from datetime import date, time, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.foods.models import Food
from curriculum.people.models import College
from kitchen.lessons.models import Lesson
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.models import Lot, Requisition, RequisitionLine
from kitchen.stores.orders.models import Keeping
from kitchen.stores.orders.queries import week_page
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from tests.builders.stores import a_lot, college_lots, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
MONDAY = date(2027, 2, 15)
TODAY = MONDAY - timedelta(6)


@pytest.fixture
def stage():
    """Seven pairs make quiches on Tuesday; it is the Tuesday before."""
    College.objects.update(shown_today=TODAY)
    return quiche_stage()


def approved(stage, lesson=None):
    row = submit_requisition(lesson=lesson or stage.lesson, by=stage.lecturer)
    return approve_requisition(requisition=row, by=stage.stores)


def butter():
    return [each for each in week_page(MONDAY).basis.served if each.need.food == "unsalted_butter"]


def more_lessons(stage, count, begins="MORE"):
    """So many lessons more in the week, each with the same needs."""
    lines = list(RequisitionLine.objects.filter(requisition__lesson=stage.lesson))
    for number in range(count):
        lesson = Lesson.objects.create(
            code=f"{begins}{number:04}",
            title=f"Lesson {number}",
            on=MONDAY + timedelta(number % 5),
            starts=time(13),
            minutes=180,
            room=stage.lesson.room,
            group=stage.lesson.group,
            lecturer=stage.lecturer,
        )
        row = Requisition.objects.create(lesson=lesson, number=1, state="approved", by=stage.lecturer)
        for line in lines:
            RequisitionLine.objects.create(
                requisition=row, food=line.food, milligrams=line.milligrams, why=line.why
            )


def test_only_what_the_stores_approved_is_counted_and_the_rest_is_named(stage):
    assert not butter() and week_page(MONDAY).basis.waiting == (stage.lesson,)
    approved(stage)
    assert [each.need.milligrams for each in butter()] == [1_440_000]
    assert week_page(MONDAY).basis.waiting == ()


def test_a_cancelled_lesson_and_one_whose_kits_have_left_need_nothing(stage):
    approved(stage)
    college_lots()
    Lot.objects.filter(label_read_on=None).update(label_read_on=TODAY)
    accept_kits(lesson=stage.lesson, by=stage.stores)
    assert butter()
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    left = sum(each.need.milligrams for each in butter())
    assert left < 1_440_000
    Lesson.objects.update(state=Lesson.State.CANCELLED)
    assert not butter()


def test_what_lessons_before_the_week_still_need_is_served_first_and_not_bought_here(stage):
    approved(stage)
    a_lot("unsalted_butter", "BU-1", 2000)
    more_lessons(stage, 1)
    Lesson.objects.filter(code="MORE0000").update(on=TODAY + timedelta(1))
    (only,) = butter()
    assert (only.need.lesson, only.stock_milligrams) == (stage.lesson.code, 560_000)


def test_a_lot_that_was_opened_too_long_ago_is_not_counted(stage):
    approved(stage)
    a_lot("unsalted_butter", "BU-1", 2000, opened_on=MONDAY - timedelta(3))
    assert butter()[0].stock_milligrams == 1_440_000
    food = Food.objects.get(code="unsalted_butter")
    Keeping.objects.create(food=food, opened_days=3, source="The label.", by=stage.stores)
    assert butter()[0].stock_milligrams == 0
    Keeping.objects.update(opened_days=4)
    assert butter()[0].stock_milligrams == 1_440_000


def test_as_many_queries_for_thirty_lessons_as_for_three(stage):
    approved(stage)
    a_lot("unsalted_butter", "BU-1", 2000)
    more_lessons(stage, 2)
    with CaptureQueriesContext(connection) as three:
        week_page(MONDAY)
    more_lessons(stage, 27, "REST")
    with CaptureQueriesContext(connection) as thirty:
        week_page(MONDAY)
    assert len(three) == len(thirty) <= 28
