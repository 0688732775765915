"""Who may open the pages of deliveries."""

from uuid import uuid4

from curriculum.foods.models import Food
from tests.access_matrix import Row, answers
from tests.builders.cast import TERM, TODAY
from tests.builders.deliveries import a_delivery, a_pack, an_order, as_ordered, checked

HANDS = answers(200, "stores technician", rest=403)
HANDS_POST = answers(302, "stores technician", rest=403)


def keyed(cast):
    return {"key": str(uuid4())}


def begun(cast):
    """A delivery of four packs of flour, by its code."""
    Food.objects.update(label_read_on=TERM)
    order = an_order(a_pack("plain_flour"), by=cast.stores)
    return {"code": a_delivery(order, by=cast.stores).code}


def to_begin(cast):
    order = an_order(a_pack("plain_flour"), by=cast.stores)
    return keyed(cast) | {"order": order.pk, "on": f"{TODAY:%d %b %Y}"}


def a_line(cast):
    food = Food.objects.get(code="plain_flour")
    said = {"pack": food.packs.get().pk, "count": "4", "date_kind": "none", "label": "not_read"}
    return keyed(cast) | said | {"taken": "yes", "seen": "0"}


def waiting(cast, **changes):
    """A substitute that waits for a decision."""
    Food.objects.update(label_read_on=TERM)
    order = an_order(a_pack("plain_flour"), by=cast.stores)
    delivery = a_delivery(order, by=cast.stores)
    said = {"substitute": True, "why": "Another mill.", "contains": ("soya",)} | changes
    line = checked(delivery, as_ordered(order.lines.get(), **said), cast.stores)
    return {"code": delivery.code, "number": line.number}


def unread(cast):
    return waiting(cast, label_read=False)


def accepted(cast):
    return keyed(cast) | {"what": "accept"}


def names_none(cast):
    return keyed(cast) | {"none_named": "on"}


ROWS = (
    Row("stores:deliveries", "GET", HANDS),
    Row("stores:begin_delivery", "GET", HANDS),
    Row("stores:begin_delivery", "POST", HANDS_POST, {}, to_begin),
    Row("stores:delivery_rules", "GET", HANDS),
    Row("stores:delivery_rules", "POST", HANDS_POST, {}, {"storage": "chilled", "warmest": "5"}),
    Row("stores:delivery", "GET", HANDS, begun),
    Row("stores:delivery_line", "GET", HANDS, begun),
    Row("stores:delivery_line", "POST", HANDS_POST, begun, a_line),
    Row("stores:decide_line", "GET", HANDS, waiting),
    Row("stores:decide_line", "POST", HANDS_POST, waiting, accepted),
    Row("stores:line_label", "POST", HANDS_POST, unread, names_none),
    Row("stores:close_delivery", "POST", HANDS_POST, begun),
)
