"""Who may say what became of the dishes, print labels to take home, and say where a shared kit went."""

from kitchen.stores.models import Kit
from tests.access.moves import left
from tests.access.stores import keyed, lesson
from tests.access_matrix import Row, answers

READERS = answers(200, "lecturer cover stores technician", 404, "other_lecturer", rest=403)
WRITERS = answers(302, "lecturer cover stores technician", 404, "other_lecturer", rest=403)


def eaten(cast):
    return keyed(cast) | {"benches": [cast.place.code], "eaten": "4"}


def a_shared_kit(cast):
    """The kit of the demonstration, of which something has left."""
    cast.lesson.demonstration_batches = 1
    cast.lesson.save()
    found = left(cast)
    return found | {"kit": Kit.objects.filter(kit_set__lesson=cast.lesson, place=None).first().code}


def to_a_bench(cast):
    return keyed(cast) | {"benches": [cast.place.code]}


ROWS = (
    Row("stores:became", "GET", READERS, left),
    Row("stores:became", "POST", WRITERS, lesson, eaten),
    Row("stores:take_home_labels", "GET", READERS, left),
    Row("stores:kit_given", "GET", READERS, a_shared_kit),
    Row("stores:kit_given", "POST", WRITERS, a_shared_kit, to_a_bench),
)
