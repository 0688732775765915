"""A week's purchase knows what kits took and lack, what stands on trays, and what is at the door."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import transaction

from curriculum.foods.models import Food
from curriculum.people.models import College
from kitchen.stores.actions import issue_kits
from kitchen.stores.deliveries.actions import close_delivery
from kitchen.stores.deliveries.models import AcceptedFor
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.made.actions import make_lot
from kitchen.stores.made.bowls import MadeEntry
from kitchen.stores.models import Kit, Lot
from kitchen.stores.orders.models import Keeping, Order
from kitchen.stores.orders.queries import monday_of, week_basis
from kitchen.stores.proposal import prepare
from kitchen.stores.queries import kit_question, now_at, the_college
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from kitchen.stores.requisitions.queries import requisition_page
from kitchen.stores.weighout.actions import weigh
from tests.builders.book import TERM
from tests.builders.deliveries import a_delivery, a_pack, an_order, as_ordered, checked
from tests.builders.stores import QUICHE_DAY, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
MONDAY = monday_of(QUICHE_DAY)
BLEND, BUTTER, EGG = "gluten_free_flour_blend", "unsalted_butter", "egg_in_shell"


def approved(stage):
    row = submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    return approve_requisition(requisition=row, by=stage.stores)


def asked(row, food):
    return sum(line.milligrams for line in row.lines.all() if line.food.code == food)


def of_food(food):
    """What the week says of a food: needed, from stock, on order, missing."""
    rows = [each for each in week_basis(MONDAY).served if each.need.food == food]
    return (
        sum(each.need.milligrams for each in rows),
        sum(each.stock_milligrams for each in rows),
        sum(each.ordered_milligrams for each in rows),
        sum(each.missing_milligrams for each in rows),
    )


def stored(*benches):
    """A quiche at these benches, its requisition approved, the stores full and every label read."""
    College.objects.update(shown_today=QUICHE_DAY - timedelta(days=1))
    stage = quiche_stage(benches=benches, ahead=())
    college_lots()
    Lot.objects.filter(label_read_on=None).update(label_read_on=TERM)
    Food.objects.filter(label_read_on=None).update(label_read_on=TERM)
    stage.requisition = approved(stage)
    return stage


def test_what_a_kit_left_short_of_is_still_bought():
    stage = stored("R01", "V1")
    blend = Lot.objects.get(food__code=BLEND)
    out = Move(blend.pk, 50_000 - blend.on_hand_milligrams, "waste", uuid4(), reason="spoilt")
    with transaction.atomic():
        move(lots=lots_locked([blend.pk]), moves=[out], by=stage.stores)
    kits_made(stage)
    needed = asked(stage.requisition, BLEND)
    assert of_food(BLEND) == (needed, 50_000, 0, needed - 50_000)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert of_food(BLEND) == (needed - 50_000, 0, 0, needed - 50_000)
    assert of_food(BUTTER) == (0, 0, 0, 0)


def test_a_reserved_pack_that_came_in_and_a_weighed_tray_serve_the_kit_that_was_short():
    """Nothing is bought twice: neither beside a new reserved pack, nor for what stands weighed by now."""
    stage = stored("R01", "V1")
    blend = Lot.objects.get(food__code=BLEND)
    out = Move(blend.pk, 50_000 - blend.on_hand_milligrams, "waste", uuid4(), reason="spoilt")
    with transaction.atomic():
        move(lots=lots_locked([blend.pk]), moves=[out], by=stage.stores)
    kits_made(stage)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    left = asked(stage.requisition, BLEND) - 50_000
    new = a_lot(BLEND, "GF-2", grams=1000)
    Lot.objects.filter(pk=new.pk).update(reserved_free_from=True)
    assert of_food(BLEND) == (left, left, 0, 0)


def test_packs_reserved_for_free_from_kits_are_stock_for_a_lesson_that_has_such_kits():
    stage = stored("R01", "V1")
    assert Lot.objects.get(food__code=BLEND).reserved_free_from
    needed = asked(stage.requisition, BLEND)
    assert of_food(BLEND) == (needed, needed, 0, 0)


def test_packs_reserved_for_free_from_kits_are_no_stock_for_ordinary_ones():
    stored("R01")
    Lot.objects.filter(food__code=BUTTER).update(reserved_free_from=True)
    assert of_food(BUTTER)[1] == 0


@pytest.fixture
def at_the_door():
    """480 g of butter are needed and one pack of 250 g is on order with leeks; the butter has come."""
    College.objects.update(shown_today=QUICHE_DAY - timedelta(days=1))
    stage = quiche_stage(benches=("R01",), ahead=())
    Keeping.objects.all().delete()
    stage.requisition = approved(stage)
    pack = a_pack(BUTTER, 250)
    stage.order = an_order(pack, a_pack("leek", 250), count=1)
    Order.objects.update(for_on=QUICHE_DAY - timedelta(days=1))
    stage.delivery = a_delivery(stage.order, on=QUICHE_DAY - timedelta(days=1))
    stage.line = stage.order.lines.get(pack=pack)
    return stage


def test_what_was_taken_in_is_a_lot_and_no_longer_on_order(at_the_door):
    needed = asked(at_the_door.requisition, BUTTER)
    assert of_food(BUTTER) == (needed, 0, 250_000, needed - 250_000)
    entry = as_ordered(at_the_door.line, decicelsius=40, contains=("milk",))
    checked(at_the_door.delivery, entry, on=QUICHE_DAY - timedelta(days=1))
    assert of_food(BUTTER) == (needed, 250_000, 0, needed - 250_000)
    close_delivery(delivery=at_the_door.delivery, by=at_the_door.stores)
    assert of_food(BUTTER) == (needed, 250_000, 0, needed - 250_000)


def test_what_was_rejected_does_not_come(at_the_door):
    needed = asked(at_the_door.requisition, BUTTER)
    entry = as_ordered(at_the_door.line, taken=False, why="Torn.")
    checked(at_the_door.delivery, entry, on=QUICHE_DAY - timedelta(days=1))
    assert of_food(BUTTER) == (needed, 0, 0, needed)


def test_what_stands_on_trays_of_a_lesson_that_asks_for_nothing_serves_no_other():
    stage = stored("R01")
    kit_set = kits_made(stage)
    kit = Kit.objects.get(kit_set=kit_set, place__bench__number=1)
    weigh(kit_set=kit_set, weights=[(kit.code, "soft_wheat_flour")], by=stage.stores)
    lots = Lot.objects.filter(food__code="soft_wheat_flour")
    there = sum(lot.on_hand_milligrams for lot in lots)
    keeping = {"par_milligrams": there, "by": stage.stores}
    Keeping.objects.update_or_create(food=lots[0].food, defaults=keeping)
    needed = asked(stage.requisition, "soft_wheat_flour")
    assert of_food("soft_wheat_flour")[3] == needed
    stage.lesson.requisitions.update(state="withdrawn")
    on_the_tray = sum(line.stock_milligrams for line in kit.lines.filter(food__code="soft_wheat_flour"))
    assert of_food("soft_wheat_flour") == (there, there - on_the_tray, 0, on_the_tray)


def test_eggs_beaten_for_a_lesson_are_not_asked_for_again():
    College.objects.update(shown_today=QUICHE_DAY)
    stage = quiche_stage(benches=("R01",) * 3, ahead=())
    Keeping.objects.all().delete()
    needed = asked(approved(stage), EGG)
    unit = Food.objects.get(code=EGG).piece_milligrams
    a_lot(EGG, "EGG-1", grams=needed // 1000)
    assert of_food(EGG)[3] == 0
    now = now_at(the_college())
    entry = MadeEntry("egg_beaten", (("EGG-1", 12),), 12 * unit, now, now + timedelta(hours=3))
    make_lot(lesson=stage.lesson, entry=entry, by=stage.stores)
    assert of_food(EGG) == (needed - 12 * unit, needed - 12 * unit, 0, 0)


def test_a_substitute_is_not_short_in_the_lesson_it_was_accepted_for():
    stage = stored("R01")
    for lot in Lot.objects.filter(food__code=BUTTER):
        Lot.objects.filter(pk=lot.pk).update(restricted=True)
        AcceptedFor.objects.create(lot=lot, lesson=stage.lesson, by=stage.stores)
    found = prepare(kit_question(stage.lesson)).allocation
    assert BUTTER not in {each.food for each in found.shortages}


def test_kits_that_came_back_and_were_made_again_are_not_called_issued():
    stage = stored("R01")
    first = kits_made(stage)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert requisition_page(stage.lesson).issued
    first.__class__.objects.filter(pk=first.pk).update(state="superseded")
    assert not requisition_page(stage.lesson).issued
