"""Taps of a class under double sends and under kill -9: once each, numbered without a gap."""

import pytest

from kitchen.timeplan.models import DayEvent
from tests.builders.cast import build_cast
from tests.builders.running import begun
from tests.faults.workshop import Hands, race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def lesson():
    cast = build_cast()
    begun(cast, 20)
    return cast.lesson


def numbers(lesson):
    return list(DayEvent.objects.filter(lesson=lesson).order_by("number").values_list("number", flat=True))


def test_the_same_taps_sent_by_three_tablets_are_kept_once(lesson):
    told = race("day", count=9)
    assert told[0] == told[1] == told[2]
    kept = numbers(lesson)
    assert kept == list(range(1, len(kept) + 1))
    assert DayEvent.objects.filter(what="later").count() == 3
    assert DayEvent.objects.filter(what="started").count() == 1
    assert DayEvent.objects.filter(what="done").count() == 1


def test_a_tap_acknowledged_before_a_kill_is_there_and_not_doubled_when_it_is_sent_again(lesson):
    acknowledged = {}
    for killed_after in (1, 4):
        hands = Hands("day", 0, 9)
        hands.wait_until_ready()
        hands.go()
        hands.read(most=killed_after)
        acknowledged |= hands.kill()
    last = Hands("day", 0, 9)
    last.wait_until_ready()
    last.go()
    assert last.finish() | acknowledged == last.answers
    kept = numbers(lesson)
    assert kept == list(range(1, len(kept) + 1))
