"""Writing down rooms with what stands in them."""

import dataclasses

from django.db import transaction

from curriculum.people.models import User
from kitchen.rooms.entries import ApplianceEntry, RoomEntry
from kitchen.rooms.models import Appliance, Bench, Equipment, Room


@transaction.atomic
def add_room(*, entry: RoomEntry, by: User) -> Room:
    """Add a room with its benches, appliances and small equipment."""
    room = Room(
        code=entry.code,
        name=entry.name,
        purpose=entry.purpose,
        seats=entry.seats,
        decicelsius=entry.decicelsius,
        note=entry.note,
    )
    room.full_clean()
    room.save()
    Bench.objects.bulk_create(Bench(room=room, number=number, cooks=cooks) for number, cooks in entry.benches)
    Appliance.objects.bulk_create(_appliance(room, each) for each in entry.appliances)
    Equipment.objects.bulk_create(
        Equipment(room=room, item=item, count=count) for item, count in entry.equipment
    )
    return room


def _appliance(room: Room, entry: ApplianceEntry) -> Appliance:
    values = {each.name: getattr(entry, each.name) for each in dataclasses.fields(entry)}
    return Appliance(room=room, **{**values, "heat": list(entry.heat)})
