"""What the demonstration does with small equipment: knives are away, moulds are lent, a knife is not back.

Every stage has a key of its own, so that a second start leaves it alone.
"""

from kitchen.lessons.models import Lesson, Place
from kitchen.rooms.models import Equipment
from kitchen.stores.tools import queries
from kitchen.stores.tools.actions import Count, correct_count, count_in, count_out
from kitchen.website.demonstration import files
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.stages import answer_of, key

TECHNICIAN = "desmond"
FILE = "equipment.json"


def correct() -> None:
    """What lies there otherwise than the rooms were written down."""
    for each in files.read(FILE)["corrected"]:
        stage = ("equipment", each["room"], each["item"])
        if answer_of(*stage) is None:
            row = Equipment.objects.get(room__code=each["room"], item=each["item"])
            told = {"count": each["count"], "reason": each["why"], "moves_seen": row.moves}
            correct_count(thing=row, **told, by=person(TECHNICIAN), key=key(*stage))


def borrows(said: dict) -> bool:
    """Whether the lesson borrows from other rooms, so that its requisition is approved."""
    return said["code"] in files.read(FILE)["borrowing"]


def count(lesson: Lesson, said: dict) -> None:
    """Count the things of a lesson out and in; what is missing stays open."""
    things = next(
        (each["things"] for each in files.read(FILE)["counted"] if each["lesson"] == said["code"]), []
    )
    rows = {row.item: row for row in Equipment.objects.filter(room=lesson.room)}
    out = [one for each in things for one in _out(lesson, each, rows[each["item"]])]
    back = [one for each in things for one in _back(lesson, each, rows[each["item"]])]
    for name, action, counts in (("out", count_out, out), ("in", count_in, back)):
        stage = (said["code"], "equipment", name)
        if counts and answer_of(*stage) is None:
            seen = queries.moves_seen(lesson)
            action(lesson=lesson, counts=counts, seen=seen, by=person(TECHNICIAN), key=key(*stage))


def _out(lesson: Lesson, each: dict, row: Equipment) -> list[Count]:
    """One to each bench and the rest to the class, where it goes bench by bench."""
    if not each.get("by_bench"):
        return [Count(row.pk, each["out"])]
    places = _places(lesson)
    return [*(Count(row.pk, 1, place.pk) for place in places), Count(row.pk, each["out"] - len(places))]


def _back(lesson: Lesson, each: dict, row: Equipment) -> list[Count]:
    """What came in: all of it but what the one bench has not brought back."""
    if "in" in each:
        return [Count(row.pk, each["in"])]
    missing = {place.pk for place in _places(lesson) if place.bench.number == each["missing_at_bench"]}
    return [one for one in _out(lesson, each, row) if one.place not in missing]


def _places(lesson: Lesson) -> list[Place]:
    rows = Place.objects.filter(shift__lesson=lesson).select_related("bench")
    return list(rows.order_by("bench__number"))
