"""Who may open the pages of small equipment: a lesson's counts, and what each place has."""

from curriculum.recipes.models import Version
from kitchen.rooms.models import Equipment, Room
from kitchen.stores.tools.actions import Count, count_out
from tests.access.stores import HANDS, HANDS_POST, READERS, keyed, lesson
from tests.access_matrix import Row, answers

POSTERS = answers(302, "lecturer cover stores technician", 404, "other_lecturer", rest=403)
STAFF = answers(403, "student other_student external", rest=200)


def knives(cast):
    """Eight knives in the room, of which each bench needs one, and a place to move them to."""
    Version.objects.filter(pk=cast.recipe_version.pk).update(equipment=[{"item": "chef_knife", "count": 1}])
    Room.objects.create(code="larder", name="Larder", purpose="stores")
    return Equipment.objects.create(room=cast.room, item="chef_knife", at_first=8, count=8)


def with_knives(cast):
    knives(cast)
    return lesson(cast)


def going_out(cast):
    return keyed(cast) | {"seen": "0:0", f"n_{Equipment.objects.get().pk}": "2"}


def two_out(cast):
    thing = knives(cast)
    count_out(lesson=cast.lesson, counts=[Count(thing.pk, 2)], seen={}, by=cast.stores)
    return lesson(cast)


def coming_back(cast):
    thing = Equipment.objects.get()
    return keyed(cast) | {"seen": f"{thing.pk}:1", f"n_{thing.pk}_0": "1"}


def an_open_line(cast):
    return two_out(cast) | {"thing": Equipment.objects.get().pk, "place": 0}


def gone(cast):
    return keyed(cast) | {"count": "1", "reason": "broken", "note": ""}


def a_thing(cast):
    return {"item": knives(cast).item}


def there(cast):
    return a_thing(cast) | {"room": cast.room.code}


def really(cast):
    return gone(cast) | {"count": "7", "seen": "0"}


def to_larder(cast):
    return keyed(cast) | {"count": "1", "to": "larder", "reason": "gathered", "note": ""}


def a_new_thing(cast):
    said = {"name": "Oyster knife", "room": cast.room.code, "count": "3", "reason": "bought", "note": ""}
    return keyed(cast) | said


ROWS = (
    Row("stores:lesson_equipment", "GET", READERS, two_out),
    Row("stores:count_out", "GET", READERS, with_knives),
    Row("stores:count_out", "POST", POSTERS, with_knives, going_out),
    Row("stores:count_in", "GET", READERS, two_out),
    Row("stores:count_in", "POST", POSTERS, two_out, coming_back),
    Row("stores:write_off", "GET", HANDS, an_open_line),
    Row("stores:write_off", "POST", HANDS_POST, an_open_line, gone),
    Row("stores:equipment_sheet", "GET", READERS, with_knives),
    Row("stores:equipment", "GET", STAFF),
    Row("stores:equipment_wash", "POST", HANDS_POST, {}, {"minutes": "25"}),
    Row("stores:add_thing", "GET", HANDS),
    Row("stores:add_thing", "POST", HANDS_POST, {}, a_new_thing),
    Row("stores:thing", "GET", STAFF, a_thing),
    Row("stores:correct_thing", "GET", HANDS, there),
    Row("stores:correct_thing", "POST", HANDS_POST, there, really),
    Row("stores:move_thing", "GET", HANDS, there),
    Row("stores:move_thing", "POST", HANDS_POST, there, to_larder),
)
