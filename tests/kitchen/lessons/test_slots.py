"""What stands in the way of a slot, in words with what would help."""

import pytest

from kitchen.lessons.slots import Booked, Person, Slot, Wanted, clashes, slot_troubles

ODILE, SOLVEIG = Person(1, "Odile Farthingbrook"), Person(2, "Solveig Marchbank")
ROOMS = [(10, "Juniper Kitchen"), (11, "Saffron Kitchen")]


def booked(starts=18 * 60, minutes=180, room=11, group=5, teacher=SOLVEIG):
    return Booked(Slot(starts, minutes), "Milk bread rolls", room, dict(ROOMS)[room], group, "EV1", teacher)


def wanted(starts=20 * 60 + 45, minutes=60, room=11, group=6, teacher=ODILE):
    return Wanted(Slot(starts, minutes), room, group, teacher)


def test_a_taken_room_names_who_has_it_and_which_is_free():
    (trouble,) = clashes(wanted(), [booked()], ROOMS)
    assert trouble.field == "room"
    assert trouble.message == (
        "Saffron Kitchen is taken by EV1, Milk bread rolls, 18:00 to 21:00. Free then: Juniper Kitchen."
    )


def test_with_no_other_room_free_the_next_time_is_named():
    (trouble,) = clashes(wanted(), [booked(), booked(room=10, group=9, teacher=Person(9, "Z"))], ROOMS)
    assert "No other kitchen is free; start at 21:00 or later." in trouble.message


def test_room_lecturer_and_group_are_each_named():
    found = clashes(wanted(group=5, teacher=SOLVEIG), [booked()], ROOMS)
    assert [trouble.field for trouble in found] == ["room", "lecturer", "group"]
    assert "Solveig Marchbank teaches EV1" in found[1].message


@pytest.mark.parametrize(("starts", "minutes"), [(21 * 60, 60), (17 * 60, 60)])
def test_one_lesson_may_begin_when_another_ends(starts, minutes):
    assert clashes(wanted(starts, minutes), [booked()], ROOMS) == []


def test_one_shared_minute_is_a_clash():
    assert clashes(wanted(17 * 60, 61), [booked()], ROOMS)


@pytest.mark.parametrize(
    ("slot", "code"),
    [
        (Slot(540, -30), "ends_before_start"),
        (Slot(540, 0), "ends_before_start"),
        (Slot(1380, 90), "longer_than_the_day"),
        (Slot(540, 45), "no_time_to_cook"),
    ],
)
def test_an_impossible_slot_says_why(slot, code):
    (trouble,) = slot_troubles(slot, 15, 30)
    assert (trouble.field, trouble.code) == ("ends", code)


def test_a_slot_until_midnight_is_possible():
    assert slot_troubles(Slot(1380, 60), 15, 30) == []
    assert Slot(1380, 60).words == "23:00 to 24:00"
