"""Who may open the pages of waste, counts, food the book lacks and corrections."""

from kitchen.stores.models import Lot
from tests.access.stores import HANDS, HANDS_POST, a_lot, keyed
from tests.access_matrix import Row


def first_move(cast):
    return a_lot(cast) | {"number": 1}


def thrown_away(cast):
    return keyed(cast) | {"amount": "10", "reason": "dropped", "note": ""}


def counted(cast):
    """One full lot, as the page showed it."""
    from_book = a_lot(cast)
    lot = Lot.objects.get(code=from_book["code"])
    return keyed(cast) | {"seen": f"{lot.pk}:{lot.moves}", f"n_{lot.pk}": "10000", f"why_{lot.pk}": ""}


def lying_there(cast):
    said = {"food": "plain_flour", "amount": "10", "reason": "bought", "note": "", "date_kind": "none"}
    return keyed(cast) | said


def really(cast):
    return keyed(cast) | {"amount": "9", "why": "Misread."}


ROWS = (
    Row("stores:waste", "GET", HANDS, a_lot),
    Row("stores:waste", "POST", HANDS_POST, a_lot, thrown_away),
    Row("stores:count", "GET", HANDS),
    Row("stores:count", "POST", HANDS_POST, {}, counted),
    Row("stores:found", "GET", HANDS),
    Row("stores:found", "POST", HANDS_POST, {}, lying_there),
    Row("stores:correct", "GET", HANDS, first_move),
    Row("stores:correct", "POST", HANDS_POST, first_move, really),
)
