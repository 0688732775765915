"""Two and three tablets at one scale: each weight is written once, and who comes second is told."""

from uuid import uuid4

import pytest
from django.db import transaction

from curriculum.foods.models import Food
from kitchen.stores.actions import accept_kits
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import Lot, Movement, Weighing
from kitchen.stores.weighout.models import WeighedFrom
from tests.builders.cast import TERM, build_cast
from tests.faults.workshop import TRIES, race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def lot():
    """The kits of the lesson wait for their flour."""
    cast = build_cast()
    for code in ("plain_flour", "butter"):
        food = Food.objects.get(code=code)
        row = Lot.objects.create(
            code=code.upper(), food=food, received_on=TERM, date_kind="none", label_read_on=TERM
        )
        with transaction.atomic():
            move(lots=lots_locked([row.pk]), moves=[Move(row.pk, 10**7, "receive", uuid4())], by=cast.stores)
    accept_kits(lesson=cast.lesson, by=cast.stores)
    return Lot.objects.get(code="PLAIN_FLOUR")


def wrong(told):
    """Numbers at which not exactly one tablet did it and all others were told that it was done."""
    found = []
    for number in told[0]:
        answers = sorted(each[number] for each in told)
        others = len(told) - 1
        once = ["back-0"] * others + ["back-1"] if number % 2 else ["already"] * others + ["weighed"]
        if answers != once:
            found.append((number, answers))
    return found


def test_a_pot_that_three_tablets_tap_in_the_same_instant_is_weighed_once_and_taken_back_once(lot):
    tries = TRIES // 2 * 2
    assert wrong(race("scale", tries, meet=True)) == []
    rows = list(Weighing.objects.order_by("number"))
    assert [row.number for row in rows] == list(range(1, tries + 1))
    assert [row.undone for row in rows] == [False, True] * (tries // 2)
    assert WeighedFrom.objects.count() == tries // 2
    lot.refresh_from_db()
    assert lot.on_hand_milligrams == 10**7 and not Movement.objects.filter(kind="issue").exists()


def test_hands_that_lock_nothing_are_caught(lot):
    tries = max(40, TRIES // 2 * 2)
    assert wrong(race("scale", tries, meet=True, careless=True))
