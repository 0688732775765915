"""What is done with small equipment: counted out and in, written off, corrected, moved, lent.

The rules of every action of the stores hold here too (``kitchen.stores.actions``); a thing's
count is written by ``ledgers`` alone, and what was written stays.
"""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import College, User
from curriculum.records.actions import once, own_key
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Equipment, Room
from kitchen.stores.models import Requisition
from kitchen.stores.tools import queries
from kitchen.stores.tools.kinds import counted, many_of
from kitchen.stores.tools.ledgers import Change, things_locked, write
from kitchen.stores.tools.lending import free_in
from kitchen.stores.tools.models import EquipmentLine, EquipmentMove

Kind = EquipmentMove.Kind


@dataclass(frozen=True, slots=True)
class Count:
    """So many of one thing (by key) for one bench's place (0: the class as a whole)."""

    thing: int
    count: int
    place: int = 0

    @property
    def out_box(self) -> str:
        """The name of its box where it is counted out: one for a thing, bench by bench or not."""
        return f"n_{self.thing}"

    @property
    def in_box(self) -> str:
        """The name of its box where it is counted in."""
        return f"n_{self.thing}_{self.place}"


@transaction.atomic
def count_out(
    *, lesson: Lesson, counts: Iterable[Count], seen: Mapping[int, int], by: User, key: UUID | None = None
) -> int:
    """Count things out to a lesson; returns how many. ``seen``: by thing, how often the page saw it counted.

    RuleBroken "lesson_cancelled", "counted_meanwhile", "not_so_many".
    """
    rows = _sorted(counts)

    def do() -> dict:
        if Lesson.objects.select_for_update().get(pk=lesson.pk).state == Lesson.State.CANCELLED:
            raise RuleBroken("lesson_cancelled", "This lesson is cancelled; nothing is counted out for it.")
        things = things_locked(each.thing for each in rows)
        _demand_seen(lesson, {each.out_box: each.thing for each in rows}, seen, things)
        changes = [_of_lesson(lesson, each, Kind.OUT, each.count, key) for each in rows]
        write(things=things, changes=changes, by=by)
        return {"count": sum(each.count for each in rows)}

    said = {"lesson": lesson.code, "counts": [asdict(each) for each in rows]}
    return once(key=key, action="count_out", by=by, said=said, do=do)["count"]


@transaction.atomic
def count_in(
    *, lesson: Lesson, counts: Iterable[Count], seen: Mapping[int, int], by: User, key: UUID | None = None
) -> int:
    """Count in what came back; returns how many. What is found later is counted in by the same action.

    A cancelled lesson counts in too. RuleBroken "counted_meanwhile", "more_than_out".
    """
    rows = _sorted(counts)

    def do() -> dict:
        Lesson.objects.select_for_update().get(pk=lesson.pk)
        things = things_locked(each.thing for each in rows)
        _demand_seen(lesson, {each.in_box: each.thing for each in rows}, seen, things)
        _demand_out(lesson, rows, things)
        changes = [_of_lesson(lesson, each, Kind.BACK, -each.count, key) for each in rows]
        write(things=things, changes=changes, by=by)
        return {"count": sum(each.count for each in rows)}

    said = {"lesson": lesson.code, "counts": [asdict(each) for each in rows]}
    return once(key=key, action="count_in", by=by, said=said, do=do)["count"]


@transaction.atomic
def write_off(
    *, lesson: Lesson, thing: int, place: int, count: int, reason: str, by: User, key: UUID | None = None
) -> int:
    """Write off what a lesson has not brought back, with the words why; returns what is still open.

    RuleBroken "more_than_out".
    """
    row = Count(thing, count, place)

    def do() -> dict:
        Lesson.objects.select_for_update().get(pk=lesson.pk)
        things = things_locked([thing])
        _demand_out(lesson, [row], things, field="count")
        change = Change(
            thing, Kind.LOST, key or uuid.uuid4(), -count, -count, lesson.pk, place or None, reason=reason
        )
        write(things=things, changes=[change], by=by)
        return {"open": queries.open_of(lesson)[thing, place]}

    said = {"lesson": lesson.code, **asdict(row), "reason": reason}
    return once(key=key, action="write_off", by=by, said=said, do=do)["open"]


@transaction.atomic
def correct_count(
    *, thing: Equipment, count: int, reason: str, moves_seen: int, by: User, key: UUID | None = None
) -> int:
    """Let the book say how many there are, those that are out among them; returns the difference.

    RuleBroken "counted_meanwhile", "nothing_to_correct", "fewer_than_out".
    """

    def do() -> dict:
        row = things_locked([thing.pk])[thing.pk]
        if row.moves != moves_seen:
            raise RuleBroken("counted_meanwhile", _meanwhile(row), field="count")
        if count == row.count:
            raise RuleBroken(
                "nothing_to_correct", "That is what the book says. Write what was counted.", field="count"
            )
        if count < row.out:
            raise RuleBroken(
                "fewer_than_out",
                f"{counted(row.out, row.item)} of {row.room.name} are out with lessons, and {count} were "
                "written. Count those that are out too, or write them off where they were counted out.",
                field="count",
            )
        more = count - row.count
        change = Change(row.pk, Kind.CORRECT, key or uuid.uuid4(), more, reason=reason)
        write(things={row.pk: row}, changes=[change], by=by)
        return {"difference": more}

    said = {"thing": thing.pk, "count": count, "reason": reason}
    return once(key=key, action="correct_count", by=by, said=said, do=do)["difference"]


@transaction.atomic
def add_thing(
    *, room: Room, item: str, count: int, reason: str, by: User, key: UUID | None = None
) -> Equipment:
    """Let a place have a thing that its book lacks. RuleBroken "there_already"."""

    def do() -> dict:
        Room.objects.select_for_update().get(pk=room.pk)
        if Equipment.objects.filter(room=room, item=item).exists():
            raise RuleBroken(
                "there_already",
                f"{room.name} has {many_of(item)} in the book. Correct how many there are instead.",
                field="item",
            )
        row = Equipment.objects.create(room=room, item=item, count=0)
        change = Change(row.pk, Kind.CORRECT, key or uuid.uuid4(), count, reason=reason)
        write(things=things_locked([row.pk]), changes=[change], by=by)
        return {"thing": row.pk}

    said = {"room": room.code, "item": item, "count": count, "reason": reason}
    return Equipment.objects.get(pk=once(key=key, action="add_thing", by=by, said=said, do=do)["thing"])


@transaction.atomic
def move_things(
    *, thing: Equipment, to: Room, count: int, reason: str, by: User, key: UUID | None = None
) -> Equipment:
    """Move so many to another place; returns the thing there. What is out cannot be moved.

    RuleBroken "same_place", "not_so_many".
    """

    def do() -> dict:
        if to.pk == thing.room_id:
            raise RuleBroken("same_place", f"They are in {to.name}. Choose another place.", field="to")
        list(Room.objects.select_for_update().filter(pk__in=[to.pk, thing.room_id]).order_by("pk"))
        there, _ = Equipment.objects.get_or_create(room=to, item=thing.item, defaults={"count": 0})
        things = things_locked([thing.pk, there.pk])
        gone = Change(
            thing.pk, Kind.GONE, own_key(key, "gone"), -count, other=to.pk, reason=reason, field="count"
        )
        came = Change(there.pk, Kind.CAME, own_key(key, "came"), count, other=thing.room_id, reason=reason)
        write(things=things, changes=[gone, came], by=by)
        return {"thing": there.pk}

    said = {"thing": thing.pk, "to": to.code, "count": count, "reason": reason}
    return Equipment.objects.get(pk=once(key=key, action="move_things", by=by, said=said, do=do)["thing"])


@transaction.atomic
def keep_wash_minutes(*, minutes: int, by: User) -> int:
    """Keep how long washing takes between two lessons that use the same things."""
    college = College.objects.select_for_update().get(pk=1)
    college.settings = {**college.settings, queries.WASH_SETTING: minutes}
    college.save(update_fields=["settings"])
    return minutes


def ask_for_equipment(requisition: Requisition) -> None:
    """Write what the room lacks on a requisition that is drawn up now: from where, and what stays short."""
    lines = queries.lines_to_ask(queries.lesson_day(requisition.lesson).anew())
    EquipmentLine.objects.bulk_create(
        EquipmentLine(
            requisition=requisition,
            item=each.item,
            from_room_id=each.place or None,
            count=each.count,
            words=each.words[:400],
        )
        for each in lines
    )


def demand_loans(requisition: Requisition) -> None:
    """Refuse to approve a loan of what is lent or used by now; the things stay locked until it is approved.

    RuleBroken "lent_meanwhile".
    """
    lines = [line for line in queries.lines_of(requisition) if line.from_room_id]
    lenders = Equipment.objects.filter(
        room__in={line.from_room_id for line in lines}, item__in={line.item for line in lines}
    )
    things_locked(lenders.values_list("pk", flat=True))
    found = queries.lesson_day(requisition.lesson) if lines else None
    for line in lines:
        place = next(each for each in found.day.places if each.key == line.from_room_id)
        free = free_in(place.key, place.there, found.day.holds, found.asking, found.day.wash)
        if free.get(line.item, 0) < line.count:
            raise RuleBroken(
                "lent_meanwhile",
                f"{counted(line.count, line.item)} were to come from {place.name}, and "
                f"{free.get(line.item, 0)} are free there now. Send the requisition back; submitted anew, "
                "it asks where others are free.",
            )


def _of_lesson(lesson: Lesson, each: Count, kind: str, out_change: int, key: UUID | None) -> Change:
    own, box = own_key(key, each.thing, each.place), each.out_box
    return Change(each.thing, kind, own, 0, out_change, lesson.pk, each.place or None, field=box)


def _demand_seen(
    lesson: Lesson, boxes: Mapping[str, int], seen: Mapping[int, int], things: Mapping[int, Equipment]
) -> None:
    """Refuse, at each box, a thing that another tablet has counted since the page was opened."""
    now = queries.moves_seen(lesson)
    late = [(box, thing) for box, thing in boxes.items() if now.get(thing, 0) != seen.get(thing, 0)]
    if late:
        raise RuleBroken(
            "counted_meanwhile",
            "Somebody else counted since this page was opened.",
            at_fields=tuple((box, _meanwhile(things[thing])) for box, thing in late),
        )


def _demand_out(
    lesson: Lesson, rows: Iterable[Count], things: Mapping[int, Equipment], field: str = ""
) -> None:
    """Refuse, at each box, more than is out with the bench or the class."""
    wrong, opened = [], queries.open_of(lesson)
    for each in rows:
        out = opened.get((each.thing, each.place), 0)
        if each.count > out:
            are = "is" if out == 1 else "are"
            words = f"{counted(out, things[each.thing].item)} {are} still out, and {each.count} were written."
            wrong.append((field or each.in_box, words))
    if wrong:
        raise RuleBroken("more_than_out", wrong[0][1], at_fields=tuple(wrong))


def _meanwhile(thing: Equipment) -> str:
    return (
        f"Somebody else counted {many_of(thing.item)} since this page was opened. Open it again and look "
        "at what is out."
    )


def _sorted(counts: Iterable[Count]) -> list[Count]:
    return sorted((each for each in counts if each.count), key=lambda each: (each.thing, each.place))
