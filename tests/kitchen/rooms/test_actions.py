"""A room is written down with its benches, appliances and small equipment."""

import pytest

from curriculum.people.models import User
from kitchen.rooms.actions import add_room
from kitchen.rooms.entries import ApplianceEntry, RoomEntry
from kitchen.rooms.models import Appliance, Room

OVEN = ApplianceEntry(
    "oven-1-upper",
    "Oven 1, upper deck",
    "oven",
    units=2,
    body="oven-1",
    heat=("fan",),
    least_decicelsius=500,
    most_decicelsius=2700,
)


def test_a_room_stands_with_all_that_is_in_it(db):
    by = User.objects.create_user("hilde", "Hilde Rickmans")
    entry = RoomEntry(
        "pastry", "Pastry room", "patisserie", 4, 210, ((1, 2), (2, 1)), (OVEN,), (("whisk", 9),)
    )
    room = add_room(entry=entry, by=by)
    assert list(room.benches.values_list("number", "cooks")) == [(1, 2), (2, 1)]
    assert list(room.equipment.values_list("item", "count")) == [("whisk", 9)]
    oven = Appliance.objects.get()
    assert (oven.units, oven.body, oven.heat, oven.most_decicelsius) == (2, "oven-1", ["fan"], 2700)


def test_a_bench_for_three_cooks_is_refused_and_no_room_is_left(db):
    by = User.objects.create_user("hilde", "Hilde Rickmans")
    with pytest.raises(Exception, match="rooms_bench_takes_one_or_two"):
        add_room(entry=RoomEntry("pastry", "Pastry room", "patisserie", 4, 210, ((1, 3),)), by=by)
    assert not Room.objects.exists()


def test_an_appliance_that_holds_nothing_is_never_made():
    with pytest.raises(ValueError, match="holds nothing"):
        ApplianceEntry("oven-1", "Oven 1", "oven", units=0)
