"""Stock has one writer, which numbers, sums and refuses."""

from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction

from curriculum.errors import RuleBroken
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import Lot, Movement
from tests.builders.book import a_book
from tests.builders.stores import a_lot


@pytest.fixture
def salt(db):
    """A lot of 10 g of salt."""
    a_book()
    return a_lot("fine_salt", "S-1", grams=10)


def moved(lot, *grams, kind=Movement.Kind.WASTE, key=None):
    moves = [Move(lot.pk, each * 1000, kind, key or uuid4()) for each in grams]
    return move(lots=lots_locked([lot.pk]), moves=moves, by=lot.label_read_by)


def test_movements_are_numbered_and_carry_the_balance(salt):
    rows = moved(salt, -3, -2)
    assert [(row.number, row.balance_milligrams) for row in rows] == [(2, 7_000), (3, 5_000)]
    salt.refresh_from_db()
    assert (salt.on_hand_milligrams, salt.moves) == (5_000, 3)


def test_a_lot_never_falls_below_nothing_and_says_so(salt):
    with pytest.raises(RuleBroken) as refused:
        moved(salt, -20)
    assert "Lot S-1 has 10 g and 20 g were to leave it." in refused.value.message
    assert salt.movements.count() == 1


def test_the_same_key_is_never_written_twice(salt):
    key = uuid4()
    moved(salt, -1, key=key)
    with pytest.raises(IntegrityError), transaction.atomic():
        moved(salt, -1, key=key)
    salt.refresh_from_db()
    assert salt.on_hand_milligrams == 9_000


def test_a_lot_that_somebody_else_moved_meanwhile_is_refused(salt):
    stale = lots_locked([salt.pk])
    moved(salt, -1)
    with pytest.raises(RuleBroken) as refused, transaction.atomic():
        move(lots=stale, moves=[Move(salt.pk, -1000, "waste", uuid4())], by=salt.label_read_by)
    assert refused.value.code == "lot_moved_meanwhile"
    assert salt.movements.count() == 2


def test_the_database_refuses_a_sign_that_does_not_fit(salt):
    with pytest.raises(IntegrityError), transaction.atomic():
        moved(salt, 5, kind=Movement.Kind.ISSUE)


def test_nothing_is_not_a_movement():
    with pytest.raises(ValueError):
        Move(1, 0, "issue", uuid4())


@pytest.mark.django_db(transaction=True)
def test_stock_moves_inside_a_transaction_only():
    with pytest.raises(TypeError):
        move(lots={}, moves=[], by=None)
    assert not Lot.objects.exists()
