"""Marks under double sends and under kill -9: every mark once, in one unbroken chain."""

import pytest

from assessments.marking.models import MarkEntry
from tests.builders.cast import build_cast
from tests.builders.marking import opened
from tests.faults.workshop import Hands, race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def sitting():
    return opened(build_cast())


def chain(sitting):
    """The numbers of the entries, and whether each supersedes the one before it."""
    rows = list(MarkEntry.objects.filter(sheet__sitting=sitting).order_by("number"))
    before = [None, *rows[:-1]]
    whole = all(row.supersedes_id == (old.pk if old else None) for row, old in zip(rows, before, strict=True))
    return [row.number for row in rows], whole


def test_the_same_marks_sent_by_three_tablets_are_kept_once(sitting):
    told = race("mark", count=20)
    assert told[0] == told[1] == told[2]
    assert chain(sitting) == (list(range(1, 21)), True)


def test_a_mark_acknowledged_before_a_kill_is_there_and_not_doubled_when_it_is_sent_again(sitting):
    acknowledged = {}
    for killed_after in (1, 3, 7):
        hands = Hands("mark", 0, 20)
        hands.wait_until_ready()
        hands.go()
        hands.read(most=killed_after)
        acknowledged |= hands.kill()
    last = Hands("mark", 0, 20)
    last.wait_until_ready()
    last.go()
    assert last.finish() | acknowledged == last.answers
    assert chain(sitting) == (list(range(1, 21)), True)
