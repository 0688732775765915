"""The ledger checks hold on whole ledgers and name what is broken."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from curriculum.foods.models import Food
from curriculum.people.models import User
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import KitLine, Lot, MadePart, Movement
from kitchen.timeplan.models import DayEvent
from kitchen.website.ledger_checks import (
    deliveries_are_taken_in_once,
    faults,
    kits_get_what_they_ask_for,
    made_lots_say_what_went_in,
    stock_adds_up,
)
from tests.builders.cast import TERM, build_cast
from tests.builders.deliveries import a_delivery
from tests.builders.rivals import ASKED, rivals
from tests.builders.running import begun

pytestmark = pytest.mark.django_db


def a_lot(on_hand, moves, code="butter"):
    food = Food.objects.create(code=code, name="Unsalted butter")
    return Lot.objects.create(
        code="L-1",
        food=food,
        received_on=date(2027, 2, 12),
        date_kind="none",
        on_hand_milligrams=on_hand,
        moves=moves,
    )


def moved(lot, number, milligrams, balance):
    by, _ = User.objects.get_or_create(username="hana", defaults={"name": "Hana Bellweather"})
    Movement.objects.create(
        lot=lot,
        number=number,
        milligrams=milligrams,
        balance_milligrams=balance,
        kind="receive" if milligrams > 0 else "issue",
        key=f"00000000-0000-0000-0000-00000000000{number}",
        by=by,
    )


def test_an_empty_database_has_nothing_wrong():
    assert faults() == []


def test_a_lot_whose_movements_add_up_is_whole():
    lot = a_lot(700_000, 2)
    moved(lot, 1, 1_000_000, 1_000_000)
    moved(lot, 2, -300_000, 700_000)
    assert faults() == []


def test_a_balance_that_is_not_the_sum_is_named():
    lot = a_lot(600_000, 2)
    moved(lot, 1, 1_000_000, 1_000_000)
    moved(lot, 2, -300_000, 600_000)
    assert any("the sum is 700000 mg" in sentence for sentence in stock_adds_up())


def test_a_lot_that_disagrees_with_its_ledger_is_named():
    lot = a_lot(999_000, 1)
    moved(lot, 1, 1_000_000, 1_000_000)
    assert any("Lot L-1" in sentence for sentence in stock_adds_up())


def test_a_gap_in_the_numbers_is_named():
    lot = a_lot(700_000, 2)
    moved(lot, 1, 1_000_000, 1_000_000)
    moved(lot, 3, -300_000, 700_000)
    assert any("stands at place 2" in sentence for sentence in stock_adds_up())


def test_a_gap_in_what_happened_on_the_day_is_found():
    cast = build_cast()
    event = begun(cast)
    assert faults() == []
    DayEvent.objects.create(
        lesson=cast.lesson, number=5, key=uuid4(), plan=event.plan, what="absent", by=cast.cover
    )
    (found,) = faults()
    assert found.startswith("Event 5 of the day of lesson")


def test_a_made_lot_that_does_not_say_what_went_in_or_how_it_came_in_is_named():
    cast = build_cast()
    now = timezone.now()
    food = Food.objects.get(code="butter")
    times = {"made_in": cast.lesson, "made_at": now, "discard_at": now + timedelta(hours=1)}
    Lot.objects.create(
        code="BOWL", food=food, received_on=date(2027, 2, 16), date_kind="none", on_hand_milligrams=0, **times
    )
    assert list(made_lots_say_what_went_in()) == [
        "Made lot BOWL does not say what went into it.",
        "Made lot BOWL came in 0 times.",
    ]


def test_a_part_of_a_made_lot_that_is_its_own_receipt_is_named():
    cast = build_cast()
    now = timezone.now()
    times = {"made_in": cast.lesson, "made_at": now, "discard_at": now + timedelta(hours=1)}
    bowl = Lot.objects.create(
        code="BOWL",
        food=Food.objects.get(code="butter"),
        received_on=date(2027, 2, 16),
        date_kind="none",
        **times,
    )
    moved(bowl, 1, 1_000, 1_000)
    MadePart.objects.create(made=bowl, movement=Movement.objects.get())
    assert list(made_lots_say_what_went_in()) == ["A part of made lot BOWL is no issue out of another lot."]


def for_a_kit(cast, milligrams, kind):
    """One more movement of the scene's lot for the kit of its first lesson, past every rule."""
    line, lot = KitLine.objects.order_by("pk").first(), Lot.objects.get()
    with transaction.atomic():
        locked = lots_locked([lot.pk])
        move(lots=locked, moves=[Move(lot.pk, milligrams, kind, uuid4(), line.pk)], by=cast.stores)


def test_a_kit_that_got_its_food_twice_is_named():
    cast = build_cast()
    rivals(cast, 1, there=3 * ASKED, issued=True)
    assert faults() == []
    for_a_kit(cast, -ASKED, "issue")
    (found,) = kits_get_what_they_ask_for()
    assert "200000 mg left for kit line" in found


def test_a_lot_into_which_more_came_back_than_left_it_is_named():
    cast = build_cast()
    rivals(cast, 1, issued=True)
    for_a_kit(cast, ASKED, "return")
    assert faults() == []
    for_a_kit(cast, 1, "return")
    (found,) = kits_get_what_they_ask_for()
    assert found.startswith("More came back into lot key")


def test_a_line_of_a_delivery_whose_lot_came_in_with_another_weight_or_never_is_named():
    cast = build_cast()
    lot = a_lot(700_000, 1, "plain_butter")
    moved(lot, 1, 700_000, 700_000)
    facts = {"verdict": "taken", "milligrams": 700_000, "food": lot.food, "by": cast.stores}
    delivery = a_delivery(by=cast.stores)
    line = DeliveryLine.objects.create(delivery=delivery, number=1, lot=lot, **facts)
    assert faults() == []
    DeliveryLine.objects.update(milligrams=600_000)
    (found,) = deliveries_are_taken_in_once()
    assert found == f"Line 1 of delivery {delivery.code} was taken in, and its lot differs."
    line.lot = Lot.objects.create(code="NEVER", food=lot.food, received_on=TERM, date_kind="none")
    line.save()
    assert list(deliveries_are_taken_in_once()) == [found]


def test_the_database_refuses_a_made_lot_without_its_discard_time():
    cast = build_cast()
    food = Food.objects.get(code="butter")
    with pytest.raises(IntegrityError), transaction.atomic():
        Lot.objects.create(
            code="BOWL", food=food, received_on=date(2027, 2, 16), date_kind="none", made_in=cast.lesson
        )
