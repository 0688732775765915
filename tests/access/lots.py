"""Who may open a lot's own pages: opened or thawed, and the label on its pack."""

from curriculum.people.queries import the_college, today_at
from kitchen.stores.lots.opened.actions import open_lot
from kitchen.stores.models import Lot
from tests.access.stores import HANDS, HANDS_POST, a_label, a_lot, keyed
from tests.access_matrix import Row


def opened(cast):
    """A full lot that is open."""
    code = a_lot(cast)
    lot = Lot.objects.get(code=code["code"])
    open_lot(lot=lot, kind="opened", on=today_at(the_college()), by=cast.stores)
    return code


def is_open(cast):
    today = today_at(the_college())
    return keyed(cast) | {"kind": "opened", "on": f"{today.day} {today:%b %Y}"}


def a_reason(cast):
    return keyed(cast) | {"why": "Another pack."}


def the_same(cast):
    """Another lot of the same food, and that this pack says the same."""
    lot = Lot.objects.get(code="FL-1")
    other = Lot.objects.create(
        code="SAME-1",
        food=lot.food,
        received_on=lot.received_on,
        date_kind="none",
        label_read_on=lot.received_on,
    )
    key = keyed(cast)["key"]
    return {"same-key": key, "same-same_as": f"{other.code}::", "same-read_here": "on"}


ROWS = (
    Row("stores:opened", "GET", HANDS, a_lot),
    Row("stores:opened", "POST", HANDS_POST, a_lot, is_open),
    Row("stores:opened_undo", "GET", HANDS, opened),
    Row("stores:opened_undo", "POST", HANDS_POST, opened, a_reason),
    Row("stores:lot_label", "GET", HANDS, a_lot),
    Row("stores:lot_label", "POST", HANDS_POST, a_lot, a_label),
    Row("stores:same_label", "POST", HANDS_POST, a_lot, the_same),
    Row("stores:widen_label", "POST", HANDS_POST, a_lot),
)
