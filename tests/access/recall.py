"""Who may trace food from a lot to plates and back, and hold what is left."""

from kitchen.stores.models import Movement
from tests.access.moves import left
from tests.access.stores import keyed
from tests.access_matrix import Row, answers

FINDERS = answers(200, "lecturer other_lecturer cover stores technician manager", rest=403)
READERS = answers(200, "lecturer cover stores technician manager", 404, "other_lecturer", rest=403)
ASKERS = answers(200, "lecturer cover stores manager", 404, "other_lecturer", rest=403)
HOLDERS = answers(200, "stores technician manager", rest=403)


def gone(cast):
    """Two lots of which something has left for the lesson."""
    left(cast)
    codes = Movement.objects.filter(kind="issue").values_list("lot__code", flat=True)
    return {"lots": ",".join(sorted(set(codes)))}


def a_plate(cast):
    left(cast)
    return {"place": cast.place.code}


def a_reason(cast):
    return keyed(cast) | {"why": "The supplier rang."}


ROWS = (
    Row("stores:find_recall", "GET", FINDERS),
    Row("stores:recall", "GET", READERS, gone),
    Row("stores:recall_hold", "POST", answers(302, "stores technician manager", rest=403), gone, a_reason),
    Row("stores:recall_contacts", "GET", ASKERS, gone),
    Row("stores:recall_labels", "GET", HOLDERS, gone),
    Row("stores:plate", "GET", READERS, a_plate),
)
