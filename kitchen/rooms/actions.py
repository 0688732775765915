"""Writing down rooms with what stands in them, and the list of machines for learners under 18."""

import dataclasses
from collections.abc import Iterable

from django.db import transaction

from curriculum.people.models import College, User
from kitchen.rooms.entries import ApplianceEntry, RoomEntry
from kitchen.rooms.listed import SETTING, listed_kinds
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
        Equipment(room=room, item=item, at_first=count, count=count) for item, count in entry.equipment
    )
    return room


@transaction.atomic
def keep_listed(*, kinds: Iterable[str], by: User) -> frozenset[str]:
    """Keep which machines and places are on the college's list; what is not known of is left out."""
    college = College.objects.select_for_update().get(pk=1)
    kept = listed_kinds(kinds)
    college.settings = {**college.settings, SETTING: sorted(kept)}
    college.save(update_fields=["settings"])
    return kept


def _appliance(room: Room, entry: ApplianceEntry) -> Appliance:
    values = {each.name: getattr(entry, each.name) for each in dataclasses.fields(entry)}
    return Appliance(room=room, **{**values, "heat": list(entry.heat)})
