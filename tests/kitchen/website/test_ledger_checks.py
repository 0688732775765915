"""The ledger checks hold on whole ledgers and name what is broken."""

from datetime import date
from uuid import uuid4

import pytest

from curriculum.foods.models import Food
from curriculum.people.models import User
from kitchen.stores.models import Lot, Movement
from kitchen.timeplan.models import DayEvent
from kitchen.website.ledger_checks import faults, stock_adds_up
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
