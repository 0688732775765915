"""The candidate's own clock."""

from datetime import datetime
from fractions import Fraction

import pytest

from assessments.schemes.clock import (
    allowed_minutes,
    deadline,
    elapsed_minutes,
    minutes_outside,
    started_minutes_late,
)

START = datetime(2027, 2, 25, 9, 15)


def at(hour, minute, second=0):
    return datetime(2027, 2, 25, hour, minute, second)


@pytest.mark.parametrize(
    "presented, extra, late",
    [
        (at(12, 0), 0, 0),
        (at(12, 0, 1), 0, 1),
        (at(12, 1), 0, 1),
        (at(12, 22), 0, 22),
        (at(12, 22, 1), 0, 23),
        (at(12, 41, 15), 250, 0),
        (at(12, 41, 16), 250, 1),
        (at(11, 0), 0, 0),
    ],
)
def test_a_started_minute_counts_whole_from_the_own_deadline(presented, extra, late):
    elapsed = elapsed_minutes(START, presented)
    assert started_minutes_late(elapsed, allowed_minutes(165, extra)) == late


def test_a_quarter_more_of_165_minutes_is_due_at_12_41_15():
    assert deadline(START, 165, 250) == at(12, 41, 15)
    assert deadline(START, 165) == at(12, 0)


def test_a_window_is_missed_on_both_sides():
    allowed = Fraction(165)
    assert minutes_outside(Fraction(165), allowed, 5) == 0
    assert minutes_outside(Fraction(160), allowed, 5) == 0
    assert minutes_outside(Fraction(158), allowed, 5) == 2
    assert minutes_outside(Fraction(166), allowed, 5) == 1
