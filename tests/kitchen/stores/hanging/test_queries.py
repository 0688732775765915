"""From a lesson's rows to what hangs on it: requisition, orders, trays, kits that left, bowls."""

from datetime import timedelta

import pytest
from django.test import Client

from curriculum.foods.models import Pack
from kitchen.lessons.actions import cancel_lesson
from kitchen.rooms.models import Equipment
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.hanging.queries import cancelled_that_hang, facts_of, hanging_on
from kitchen.stores.models import Kit
from kitchen.stores.orders.models import Order
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from kitchen.stores.requisitions.queries import requisition_page
from kitchen.stores.tools.actions import Count, count_in, count_out
from tests.builders.stores import a_lot, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Seven pairs; their requisition is approved and an order for its butter was sent."""
    made = quiche_stage()
    row = submit_requisition(lesson=made.lesson, by=made.lecturer)
    approve_requisition(requisition=row, by=made.stores)
    pack = Pack.objects.filter(food__code="unsalted_butter").order_by("pk").first()
    order = Order.objects.create(
        supplier=pack.supplier, code="ORD23456", for_on=made.lesson.on - timedelta(1), by=made.stores
    )
    order.lines.create(pack=pack, count=3, pence_a_pack=pack.pence)
    return made


def whats(found):
    return " ".join(each.what for each, _ in found)


def test_nothing_hangs_on_a_lesson_that_stands(stage, django_assert_num_queries):
    with django_assert_num_queries(3):
        assert hanging_on(stage.lesson) == ()


def test_a_cancelled_lesson_says_its_requisition_and_its_orders(stage):
    lesson = cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    told = whats(hanging_on(lesson))
    assert "Requisition number 1 is approved." in told and "Order ORD23456" in told
    assert cancelled_that_hang(lesson.on) == [lesson]
    assert cancelled_that_hang(lesson.on + timedelta(8)) == []


def test_kits_that_left_and_are_not_back_must_come_back(stage):
    a_lot("unsalted_butter", "LT-BU", 9000)
    accept_kits(lesson=stage.lesson, by=stage.stores)
    Kit.objects.update(blocked_why="")
    assert facts_of(stage.lesson).kits_out == 0
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert facts_of(stage.lesson).kits_out > 0
    ((back, url),) = [each for each in hanging_on(stage.lesson, cancelled=True) if "back" in each[1]]
    assert "have left the stores" in back.what and url.endswith("/back/")


def test_a_moved_lesson_says_so_and_its_requisition_is_submitted_anew(stage):
    stage.lesson.on += timedelta(2)
    stage.lesson.save()
    told = whats(hanging_on(stage.lesson))
    assert "was submitted for Tuesday 16 February; the lesson is on Thursday 18 February" in told
    page = requisition_page(stage.lesson)
    assert page.changed and not page.since
    submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    assert not requisition_page(stage.lesson).moved


def test_who_cancels_is_told_before(stage):
    client = Client()
    client.force_login(stage.lecturer, "django.contrib.auth.backends.ModelBackend")
    said = client.get(f"/lessons/{stage.lesson.code}/cancel/").content.decode()
    assert "What hangs on it in the stores" in said and "ORD23456" in said


def test_what_is_counted_out_and_not_back_hangs_on_a_cancelled_lesson(stage):
    thing = Equipment.objects.filter(room=stage.lesson.room, count__gte=3).first()
    rows = {"lesson": stage.lesson, "by": stage.stores}
    count_out(counts=[Count(thing.pk, 3)], seen={}, **rows)
    count_in(counts=[Count(thing.pk, 1)], seen={thing.pk: 1}, **rows)
    lesson = cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    told = dict((each.what, address) for each, address in hanging_on(lesson))
    (words,) = [what for what in told if "small equipment" in what]
    assert words == "Two things of its small equipment are counted out."
    assert told[words].endswith("/equipment/")


def test_a_cancelled_lesson_without_a_requisition_is_listed_until_its_knife_is_back():
    stage = quiche_stage()
    knife, whisk = (
        Equipment.objects.get_or_create(room=stage.lesson.room, item=item, defaults={"count": 9})[0]
        for item in ("chef_knife", "whisk")
    )
    rows = {"lesson": stage.lesson, "by": stage.stores}
    count_out(counts=[Count(knife.pk, 2), Count(whisk.pk, 2)], seen={}, **rows)
    lesson = cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    assert cancelled_that_hang(lesson.on) == [lesson]
    assert facts_of(lesson).knives_out == ("2 chef knives",)
    (do,) = [each.do for each, _ in hanging_on(lesson) if "small equipment" in each.what]
    assert do.startswith("Find first what cuts: 2 chef knives.")
    seen = {knife.pk: 1, whisk.pk: 1}
    count_in(counts=[Count(knife.pk, 2), Count(whisk.pk, 2)], seen=seen, **rows)
    assert cancelled_that_hang(lesson.on) == [] and hanging_on(lesson) == ()
