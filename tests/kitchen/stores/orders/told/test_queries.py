"""An order tells which of its foods are needed otherwise since its week was accepted."""

from datetime import date, timedelta

import pytest

from curriculum.foods.models import Pack
from curriculum.people.models import College
from kitchen.lessons.actions import cancel_lesson
from kitchen.lessons.models import Lesson
from kitchen.stores.orders.changed import hash_of, inputs_of
from kitchen.stores.orders.models import Order, WeekPlan
from kitchen.stores.orders.queries import orders_with_lines, week_basis
from kitchen.stores.orders.told.queries import changed_since
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from tests.builders.stores import quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
MONDAY = date(2027, 2, 15)


@pytest.fixture
def stage():
    """Seven pairs make quiches on Tuesday; their butter is ordered for Monday."""
    College.objects.update(shown_today=MONDAY - timedelta(6))
    made = quiche_stage()
    approved(made)
    inputs = inputs_of(week_basis(MONDAY).served)
    said = {"inputs": inputs, "inputs_hash": hash_of(inputs), "answer": {}}
    plan = WeekPlan.objects.create(monday=MONDAY, number=1, by=made.stores, **said)
    pack = Pack.objects.filter(food__code="unsalted_butter").order_by("pk").first()
    row = Order.objects.create(
        supplier=pack.supplier, code="ORD23456", for_on=MONDAY, by=made.stores, plan=plan
    )
    row.lines.create(pack=pack, count=6, pence_a_pack=pack.pence)
    return made


def approved(stage):
    row = submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    return approve_requisition(requisition=row, by=stage.stores)


def told():
    return changed_since(orders_with_lines(Order.objects.all()).get())


def test_an_order_of_a_week_that_stands_tells_nothing(stage):
    assert told() == ()


def test_a_difference_that_was_approved_is_told_to_the_order_that_holds_its_food(stage):
    Lesson.objects.filter(pk=stage.lesson.pk).update(spare_batches=2)
    stage.lesson.refresh_from_db()
    assert told() == (), "what nobody has approved is not told"
    approved(stage)
    (row,) = told()
    assert (row.food, row.before, row.now) == ("Unsalted butter", "1,440 g", "1,600 g")
    assert row.title == stage.lesson.title


def test_a_cancelled_lesson_is_told_as_nothing_needed(stage):
    cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    (row,) = told()
    assert (row.before, row.now, row.title) == ("1,440 g", "0 g", stage.lesson.title)


def test_an_order_that_has_come_is_told_nothing_more(stage):
    cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    at = {"sent_at": "2027-02-12T08:00Z", "sent_by": stage.stores}
    Order.objects.update(state="delivered", **at)
    assert told() == ()
