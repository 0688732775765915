"""What the page of a requisition and the stores' list say, in a fixed number of queries."""

from datetime import datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.foods.models import Pack
from kitchen.lessons.models import Lesson
from kitchen.lessons.plates.actions import Plates, keep_plates
from kitchen.stores.deliveries.models import AcceptedFor
from kitchen.stores.models import Lot
from kitchen.stores.orders.models import Order
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from kitchen.stores.requisitions.queries import requisition_page, waiting_rows
from tests.builders import held_lessons
from tests.builders.stores import a_lot, kits_made, quiche_stage
from tests.builders.weighout import weighed_at

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
LONG_BEFORE = datetime(2027, 1, 4, 9)


@pytest.fixture
def stage():
    return quiche_stage()


def asked(stage):
    return submit_requisition(lesson=stage.lesson, by=stage.lecturer)


def approved(stage):
    return approve_requisition(requisition=asked(stage), by=stage.stores)


def butter_of(stage):
    return next(line for line in requisition_page(stage.lesson).lines if line.name == "Unsalted butter")


def by_food(rows):
    return {row.food: row for row in rows}


def test_a_lot_past_its_use_by_on_the_day_of_the_lesson_is_bought_again(stage):
    a_lot("unsalted_butter", "LT-OLD", 9000, date_kind="use_by", dated_on=stage.lesson.on - timedelta(days=1))
    short = butter_of(stage)
    assert (short.in_stock, bool(short.packs), short.pence > 0) == ("0 g", True, True)
    a_lot("unsalted_butter", "LT-NEW", 9000, date_kind="use_by", dated_on=stage.lesson.on)
    covered = butter_of(stage)
    assert (covered.packs, covered.pence) == ("", 0)


def test_what_stands_weighed_on_the_trays_of_another_lesson_is_not_in_stock(stage):
    a_lot("unsalted_butter", "LT-1", 2000)
    weighed_at(kits_made(stage), "unsalted_butter", stage.stores)
    other = held_lessons.a_quiche(0, benches=7, state="approved")
    butter = next(line for line in requisition_page(other).lines if line.name == "Unsalted butter")
    assert (butter.amount, butter.in_stock, bool(butter.packs)) == ("1,120 g", "880 g", True)


def test_a_substitute_is_in_stock_where_it_was_accepted_and_nowhere_else(stage):
    lot = a_lot("unsalted_butter", "LT-SUB", 9000)
    Lot.objects.filter(pk=lot.pk).update(restricted=True)
    assert butter_of(stage).in_stock == "0 g"
    AcceptedFor.objects.create(lot=lot, lesson=stage.lesson, by=stage.stores)
    assert butter_of(stage).in_stock == "9,000 g"


def test_a_bench_fewer_and_a_plate_more_say_what_changed_in_words_and_food_by_food(stage):
    approved(stage)
    stage.lesson.shifts.get().places.get(bench__number=7).delete()
    page = requisition_page(stage.lesson)
    assert page.changed and "Bench 7 is not worked any more." in page.why
    butter = by_food(page.since)["Unsalted butter"]
    assert (butter.before, butter.now, butter.difference) == ("1,440 g", "1,280 g", "160 g less")
    assert butter.why == "kits of the benches 160 g less"


def test_what_is_submitted_after_an_approval_stands_beside_what_it_amends(stage):
    approved(stage)
    keep_plates(lesson=stage.lesson, plates=Plates(second_marker=1), by=stage.lecturer)
    page = requisition_page(stage.lesson)
    assert by_food(page.since)["Leek"].why.startswith("plates for the second marker")
    second = asked(stage)
    page = requisition_page(stage.lesson)
    assert (page.requisition, page.changed, bool(page.amended)) == (second, False, True)
    assert page.approved.number == 1


def test_eggs_change_in_pieces(stage):
    approved(stage)
    Lesson.objects.filter(pk=stage.lesson.pk).update(spare_batches=2)
    stage.lesson.refresh_from_db()
    eggs = by_food(requisition_page(stage.lesson).since)["Hen egg in shell, medium"]
    assert (eggs.before, eggs.now, eggs.difference) == ("35 pieces", "39 pieces", "4 pieces more")


def test_an_order_that_holds_a_food_of_which_less_is_needed_is_named(stage):
    approved(stage)
    pack = Pack.objects.filter(food__code="unsalted_butter").order_by("pk").first()
    order = Order.objects.create(
        supplier=pack.supplier, code="ORD23456", for_on=stage.lesson.on - timedelta(1), by=stage.stores
    )
    order.lines.create(pack=pack, count=3, pence_a_pack=pack.pence)
    assert requisition_page(stage.lesson).orders == ()
    stage.lesson.shifts.get().places.get(bench__number=7).delete()
    (told,) = requisition_page(stage.lesson).orders
    assert (told.code, told.state) == ("ORD23456", "to be sent")
    assert told.words.endswith("160 g less is asked for now.")


def test_an_assessed_lesson_without_a_plate_for_the_second_marker_says_so(stage):
    assert not requisition_page(stage.lesson).no_second_plate
    stage.lesson.assessed = True
    assert requisition_page(stage.lesson).no_second_plate
    keep_plates(lesson=stage.lesson, plates=Plates(second_marker=1), by=stage.lecturer)
    assert not requisition_page(stage.lesson).no_second_plate


def test_the_stores_list_what_waits_with_the_earliest_cut_off(stage):
    row = asked(stage)
    (waits,) = waiting_rows(LONG_BEFORE, LONG_BEFORE.date())
    assert waits.requisition == row and waits.send_by > LONG_BEFORE and not waits.late
    just_before = datetime.combine(stage.lesson.on, datetime.min.time())
    (late,) = waiting_rows(just_before, just_before.date())
    assert late.late and all(each.nobody for each in late.late)
    approve_requisition(requisition=row, by=stage.stores)
    assert waiting_rows(LONG_BEFORE, LONG_BEFORE.date()) == ()


def test_three_and_thirty_waiting_requisitions_cost_the_same_queries(stage):
    a_lot("unsalted_butter", "LT-NEW", 9000)
    row, counts = asked(stage), []
    for many in (3, 30):
        for number in range(Lesson.objects.count(), many):
            _another(stage, row, number)
        with CaptureQueriesContext(connection) as told:
            assert len(waiting_rows(LONG_BEFORE, LONG_BEFORE.date())) == many
        counts.append(len(told))
    assert counts[0] == counts[1] <= 12


def _another(stage, row, number):
    lesson = Lesson.objects.get(pk=stage.lesson.pk)
    lesson.pk, lesson.code, lesson.uid = None, f"LESS{number:04}", f"{number:032x}"
    lesson.save()
    lines = list(row.lines.all())
    other = type(row).objects.get(pk=row.pk)
    other.pk, other.lesson = None, lesson
    other.save()
    for line in lines:
        line.pk, line.requisition = None, other
    type(lines[0]).objects.bulk_create(lines)
