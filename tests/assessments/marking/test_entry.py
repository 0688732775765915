"""What an entry may be, which one counts, and when two devices wrote over each other."""

from datetime import datetime
from fractions import Fraction

import pytest

from assessments.marking.entry import (
    Entry,
    before,
    conflicts,
    current,
    marks_of,
    presented_at,
    read_value,
    value_words,
)
from assessments.marking.slots import slot_at, slots
from tests.builders.schemes import QUICHE, college_scheme, techniques

START = datetime(2027, 2, 25, 9, 15)


def hundred():
    return slots(college_scheme("hundred_points"), techniques(4), QUICHE)


def slot(place):
    return slot_at(place, hundred())


@pytest.mark.parametrize(
    "place, typed, milli",
    [
        ("organisation", "2", 2000),
        ("technique.t3", "0", 0),
        ("texture", "10", 10_000),
        ("portion_weight", "133", 133_000),
        ("portion_weight", " 133,5 ", 133_500),
        ("food_temperature", "47.25", 47_250),
        ("food_temperature", "−4", -4000),
        ("timing", "12:22", 187_000),
        ("timing", "12:22:01", 187_017),
        ("timing", "12:41:15", 206_250),
    ],
)
def test_a_value_is_kept_in_thousandths_of_its_unit(place, typed, milli):
    assert read_value(slot(place), typed, START) == milli


@pytest.mark.parametrize(
    "place, typed, words",
    [
        ("organisation", "4", "You sent “4”. Choose a step from 0 to 3."),
        ("organisation", "", "You sent nothing. Choose a step from 0 to 3."),
        ("organisation", "2.5", "Choose a step from 0 to 3."),
        ("texture", "11", "from 0 to 10"),
        ("portion_weight", "a slice", "You wrote “a slice”. Write a figure in g, such as 133."),
        ("portion_weight", "-1", "from 0 to 20,000 g"),
        ("portion_weight", "1e3", "Write a figure in g"),
        ("food_temperature", "301", "from −50 to 300 °C"),
        ("timing", "25:00", "Write a time such as 12:22"),
        ("timing", "soon", "Write a time such as 12:22"),
        ("timing", "09:00", "started at 09:15; write a later time"),
    ],
)
def test_what_cannot_be_a_value_is_refused_with_what_was_typed(place, typed, words):
    with pytest.raises(ValueError) as refused:
        read_value(slot(place), typed, START)
    assert words in str(refused.value)


def test_half_a_piece_is_no_piece():
    pieces = slot_at("count", slots(college_scheme("judges_and_measures"), (), QUICHE))
    assert read_value(pieces, "8", START) == 8000
    with pytest.raises(ValueError, match="Count whole pieces"):
        read_value(pieces, "7.5", START)


def test_the_last_of_a_chain_counts_and_the_others_stay():
    first = Entry("texture", "", 1, 5000)
    second = Entry("texture", "", 2, 7000, based_on=1)
    other = Entry("technique", "t1", 1, 2000)
    assert current([second, first, other]) == {"texture": second, "technique.t1": other}
    assert before([first, second, other], "texture") == (second, first)
    assert before([other], "texture") == (None, None)


def test_a_withdrawn_mark_is_no_mark():
    chain = [Entry("texture", "", 1, 5000), Entry("texture", "", 2, None, based_on=1)]
    assert marks_of(chain) == ()
    (mark,) = marks_of(chain[:1], judge=2)
    assert (mark.value, mark.judge) == (Fraction(5), 2)


def test_two_devices_that_saw_the_same_number_are_in_conflict():
    seen = [Entry("texture", "", 1, 5000), Entry("texture", "", 2, 6000, based_on=1)]
    assert conflicts(seen) == ()
    blind = [*seen, Entry("texture", "", 3, 7000, based_on=1)]
    assert [entry.number for entry in conflicts(blind)] == [3]
    settled = [*blind, Entry("texture", "", 4, 6000, based_on=3)]
    assert conflicts(settled) == ()


@pytest.mark.parametrize(
    "place, milli, words",
    [
        ("organisation", 2000, "2 of 3"),
        ("portion_weight", 133_500, "133.5 g"),
        ("timing", 187_000, "12:22"),
        ("timing", 206_250, "12:41:15"),
        ("texture", None, "withdrawn"),
    ],
)
def test_a_value_is_said_with_its_unit(place, milli, words):
    assert value_words(slot(place), milli, START) == words


@pytest.mark.parametrize("second", range(0, 60, 7))
def test_a_time_comes_back_to_the_second(second):
    typed = f"12:22:{second:02d}"
    milli = read_value(slot("timing"), typed, START)
    assert f"{presented_at(milli, START):%H:%M:%S}" == typed
