"""Stock under double sends and under kill -9: nothing lost, nothing twice, never below nothing."""

from uuid import uuid4

import pytest
from django.db import connection, transaction

from curriculum.foods.models import Food
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import Kit, Lot, MadePart, Movement
from kitchen.stores.moves.actions import waste_from_lot
from kitchen.website.ledger_checks import faults
from tests.builders.cast import TERM, build_cast
from tests.faults.workshop import Hands, race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def cast():
    return build_cast()


def take_in(code, food, grams, by):
    lot = Lot.objects.create(
        code=code, food=food, received_on=TERM, date_kind="none", label_read_on=TERM, batch="B1"
    )
    with transaction.atomic():
        lots = lots_locked([lot.pk])
        move(lots=lots, moves=[Move(lot.pk, grams * 1000, "receive", uuid4())], by=by)
    return lot


@pytest.fixture
def lot(cast):
    return take_in("FAULTY", Food.objects.get(code="plain_flour"), 40, cast.stores)


def chain(lot):
    """The numbers of the lot's movements and whether each balance follows from the one before."""
    balance, whole = 0, True
    rows = list(Movement.objects.filter(lot=lot).order_by("number"))
    for row in rows:
        balance += row.milligrams
        whole = whole and balance == row.balance_milligrams
    lot.refresh_from_db()
    return [row.number for row in rows], whole and lot.on_hand_milligrams == balance and lot.moves == len(
        rows
    )


def test_the_same_deeds_sent_by_three_hands_are_done_once(lot):
    told = race("stock", count=30)
    numbers, whole = chain(lot)
    assert told[0] == told[1] == told[2]
    assert (len(numbers), whole, lot.on_hand_milligrams) == (31, True, 10_000)


def test_a_lot_that_runs_out_under_three_hands_ends_at_nothing(lot):
    told = race("stock", count=50)
    numbers, whole = chain(lot)
    assert (len(numbers), whole, lot.on_hand_milligrams) == (41, True, 0)
    for answers in told:
        assert list(answers.values()).count("lot_too_small") == 10


def test_what_was_acknowledged_before_a_kill_is_there_and_what_is_sent_again_is_not_doubled(lot):
    acknowledged = {}
    for killed_after in (1, 4, 9):
        hands = Hands("stock", 0, 30)
        hands.wait_until_ready()
        hands.go()
        hands.read(most=killed_after)
        told = hands.kill()
        assert all(acknowledged.get(number, answer) == answer for number, answer in told.items())
        acknowledged |= told
    last = Hands("stock", 0, 30)
    last.wait_until_ready()
    last.go()
    assert last.finish() | acknowledged == last.answers
    numbers, whole = chain(lot)
    assert (len(numbers), whole, lot.on_hand_milligrams) == (31, True, 10_000)


def test_two_hands_that_make_bowls_of_the_last_eggs_make_as_many_as_there_are_eggs_for(cast):
    facts = {"label_read_on": TERM, "counted_in": "pieces", "piece_milligrams": 57_000}
    whole = Food.objects.create(code="egg", name="Egg", **facts)
    beaten = Food.objects.create(
        code="egg_beaten", name="Beaten egg", made_from=whole, made_from_milligrams=50_000
    )
    component = cast.recipe_version.components.create(code="A", name="Paste", basis="portions", position=1)
    component.lines.create(position=1, food=beaten, milligrams=50_000)
    lot = take_in("FAULTY", whole, 57 * 21, cast.stores)
    told = race("bowl", count=14)
    numbers, whole_chain = chain(lot)
    assert told[0] == told[1] == told[2]
    assert list(told[0].values()).count("lot_too_small") == 4
    assert (len(numbers), whole_chain, lot.on_hand_milligrams) == (11, True, 57_000)
    assert Lot.objects.filter(made_in=cast.lesson, on_hand_milligrams=100_000).count() == 10
    assert MadePart.objects.count() == 10 and faults() == []


def test_kits_issued_twice_at_the_same_moment_leave_once(cast):
    for code in ("plain_flour", "butter"):
        take_in(code.upper(), Food.objects.get(code=code), 5000, cast.stores)
    accept_kits(lesson=cast.lesson, by=cast.lecturer, key=uuid4())
    told = race("issue", count=1)
    assert told[0] == told[1] == told[2]
    assert told[0][0] == f"moved-{Movement.objects.filter(kind='issue').count()}"


def test_the_last_grams_of_a_lot_are_given_to_benches_once_each_and_no_kit_is_left_without_food(cast):
    for code in ("plain_flour", "butter"):
        take_in(code.upper(), Food.objects.get(code=code), 5000, cast.stores)
    accept_kits(lesson=cast.lesson, by=cast.stores)
    issue_kits(lesson=cast.lesson, by=cast.stores)
    lot = Lot.objects.get(code="BUTTER")
    waste_from_lot(lot=lot, milligrams=lot.on_hand_milligrams - 10_000, reason="Dropped", by=cast.stores)
    told = race("more", count=14)
    assert told[0] == told[1] == told[2]
    assert list(told[0].values()).count("short") == 4
    assert chain(lot)[1] is True and lot.on_hand_milligrams == 0
    kits = Kit.objects.filter(kind="supplementary")
    assert kits.count() == kits.filter(lines__movements__kind="supplementary").count() == 10
    assert faults() == []


def test_a_row_written_past_the_one_writer_breaks_the_chain(lot, cast):
    with connection.cursor() as cursor:
        cursor.execute("UPDATE kitchen_lot SET on_hand_milligrams = 1 WHERE id = %s", [lot.pk])
    assert chain(lot)[1] is False
