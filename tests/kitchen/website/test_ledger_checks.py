"""The ledger checks hold on whole ledgers and name what is broken."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from curriculum.foods.models import Food
from curriculum.people.models import User
from kitchen.stores.models import Lot, MadePart, Movement
from kitchen.timeplan.models import DayEvent
from kitchen.website.ledger_checks import faults, made_lots_say_what_went_in, stock_adds_up
from tests.builders.cast import build_cast
from tests.builders.running import begun

pytestmark = pytest.mark.django_db


def a_lot(on_hand, moves):
    food = Food.objects.create(code="butter", name="Unsalted butter")
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


def test_the_database_refuses_a_made_lot_without_its_discard_time():
    cast = build_cast()
    food = Food.objects.get(code="butter")
    with pytest.raises(IntegrityError), transaction.atomic():
        Lot.objects.create(
            code="BOWL", food=food, received_on=date(2027, 2, 16), date_kind="none", made_in=cast.lesson
        )
