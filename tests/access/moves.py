"""Who may open the pages of waste, counts, food the book lacks and corrections."""

from kitchen.stores.actions import issue_kits
from kitchen.stores.models import Lot
from tests.access.stores import HANDS, HANDS_POST, a_lot, keyed, lesson, made
from tests.access_matrix import Row, answers


def first_move(cast):
    return a_lot(cast) | {"number": 1}


def thrown_away(cast):
    return keyed(cast) | {"amount": "10", "reason": "dropped", "note": ""}


def counted(cast):
    """One full lot, as the page showed it."""
    from_book = a_lot(cast)
    lot = Lot.objects.get(code=from_book["code"])
    return keyed(cast) | {"seen": f"{lot.pk}:{lot.moves}:0", f"n_{lot.pk}": "10000", f"why_{lot.pk}": ""}


def lying_there(cast):
    said = {"food": "plain_flour", "amount": "10", "reason": "bought", "note": "", "date_kind": "none"}
    return keyed(cast) | said


def really(cast):
    return keyed(cast) | {"amount": "9", "why": "Misread."}


def left(cast):
    """Kits that have left."""
    made(cast)
    issue_kits(lesson=cast.lesson, by=cast.stores)
    return lesson(cast)


def asked_for_more(cast):
    said = {"place": cast.place.pk, "food": "butter", "amount": "10", "reason": "dropped", "note": ""}
    return keyed(cast) | said


def came_back(cast):
    lot = Lot.objects.get(food__code="butter")
    return keyed(cast) | {"seen": "0", f"sealed_{lot.pk}": "10", "sealed_and_cold": "on"}


READERS = answers(200, "lecturer cover stores technician manager", 404, "other_lecturer", rest=403)

ROWS = (
    Row("stores:expiring", "GET", HANDS),
    Row("stores:back", "GET", HANDS, left),
    Row("stores:back", "POST", HANDS_POST, left, came_back),
    Row("stores:lesson_stores", "GET", READERS, left),
    Row("stores:more", "GET", HANDS, left),
    Row("stores:more", "POST", HANDS_POST, left, asked_for_more),
    Row("stores:waste", "GET", HANDS, a_lot),
    Row("stores:waste", "POST", HANDS_POST, a_lot, thrown_away),
    Row("stores:count", "GET", HANDS),
    Row("stores:count", "POST", HANDS_POST, {}, counted),
    Row("stores:found", "GET", HANDS),
    Row("stores:found", "POST", HANDS_POST, {}, lying_there),
    Row("stores:correct", "GET", HANDS, first_move),
    Row("stores:correct", "POST", HANDS_POST, first_move, really),
)
