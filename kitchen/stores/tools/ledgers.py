"""The one writer of small equipment: every change, and what a place has and has out, is written here.

For the actions of this folder. Changes are appended and never altered; ``count``, ``out`` and
``moves`` of a thing are a copy of the end of its ledger, written in the same transaction.
Whoever calls has locked the things (``things_locked``) in key order.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from kitchen.rooms.models import Equipment
from kitchen.stores.tools.kinds import counted, many_of
from kitchen.stores.tools.models import EquipmentMove


@dataclass(frozen=True, slots=True)
class Change:
    """One change of one thing in one place: ``change`` of how many, ``out_change`` of how many are out.

    ``field`` is where a form shows a refusal.
    """

    thing: int
    kind: str
    key: UUID
    change: int = 0
    out_change: int = 0
    lesson: int | None = None
    place: int | None = None
    other: int | None = None
    reason: str = ""
    field: str = ""

    def __post_init__(self) -> None:
        if not self.change and not self.out_change:
            raise ValueError("A change changes something.")


def things_locked(keys: Iterable[int]) -> dict[int, Equipment]:
    """These things by key, locked until the transaction ends, always in key order."""
    rows = Equipment.objects.select_for_update(of=("self",)).select_related("room")
    return {row.pk: row for row in rows.filter(pk__in=set(keys)).order_by("pk")}


def write(*, things: Mapping[int, Equipment], changes: Iterable[Change], by: User) -> list[EquipmentMove]:
    """Write these changes and the new counts; all or none.

    RuleBroken "not_so_many" when more would be out than there are, or fewer than none be left.
    """
    if not transaction.get_connection().in_atomic_block:
        raise TypeError("Equipment is counted inside a transaction only.")
    rows = [_row(things[each.thing], each, by) for each in changes]
    Equipment.objects.bulk_update(
        [things[key] for key in sorted({row.equipment_id for row in rows})], ["count", "out", "moves"]
    )
    return EquipmentMove.objects.bulk_create(rows)


def _row(thing: Equipment, each: Change, by: User) -> EquipmentMove:
    count, out = thing.count + each.change, thing.out + each.out_change
    if not 0 <= out <= count:
        raise RuleBroken("not_so_many", _refusal(thing, each), field=each.field)
    thing.count, thing.out, thing.moves = count, out, thing.moves + 1
    return EquipmentMove(
        equipment=thing,
        number=thing.moves,
        kind=each.kind,
        change=each.change,
        out_change=each.out_change,
        count_after=count,
        out_after=out,
        lesson_id=each.lesson,
        place_id=each.place,
        other_id=each.other,
        reason=each.reason,
        key=each.key,
        by=by,
    )


def _refusal(thing: Equipment, each: Change) -> str:
    """What the place has, what is out of it, and what was to be taken."""
    wanted = each.out_change if each.out_change > 0 else -each.change
    out = f", {thing.out} of them out with lessons" if thing.out else ""
    return (
        f"{thing.room.name} has {counted(thing.count, thing.item)} in the book{out}; {wanted} were to be "
        f"taken. Take fewer, or correct how many {many_of(thing.item)} there are."
    )
