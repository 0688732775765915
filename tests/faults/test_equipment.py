"""Knives under double sends and under two tablets at once: none lost, none counted twice."""

import pytest

from kitchen.rooms.models import Equipment
from kitchen.stores.tools.models import EquipmentMove
from kitchen.website.ledger_checks import faults
from tests.builders.cast import build_cast
from tests.faults.workshop import race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def knives():
    cast = build_cast()
    return Equipment.objects.create(room=cast.room, item="chef_knife", at_first=20, count=20)


def stands(knives):
    knives.refresh_from_db()
    return knives.count, knives.out, knives.moves, EquipmentMove.objects.count()


def test_the_same_knives_counted_out_by_three_hands_go_out_once(knives):
    told = race("knife", count=15)
    assert told[0] == told[1] == told[2]
    assert set(told[0].values()) == {"out-1"}
    assert stands(knives) == (20, 15, 15, 15) and faults() == []


def test_when_the_last_knife_is_out_every_hand_is_told(knives):
    told = race("knife", count=26)
    for answers in told:
        assert list(answers.values()).count("not_so_many") == 6
    assert stands(knives) == (20, 20, 20, 20) and faults() == []


def test_of_tablets_that_saw_the_same_page_one_counts_and_the_others_are_told(knives):
    told = race("tablet", count=14)
    for number in range(14):
        answers = sorted(each[number] for each in told)
        assert answers == ["counted-2", "counted_meanwhile", "counted_meanwhile"]
    assert stands(knives) == (20, 0, 14, 14) and faults() == []
