"""What hands do with the orders of a week in the same instant: accept, note as sent, change, cancel."""

from datetime import timedelta

from django.db import transaction
from django.db.models import Sum

from curriculum.errors import RuleBroken
from curriculum.foods.models import Pack
from curriculum.people.models import User
from kitchen.stores.orders.actions import accept_week, cancel_order, change_order, note_sent
from kitchen.stores.orders.changed import hash_of, inputs_of
from kitchen.stores.orders.entries import LineEntry, OrderEntry, WeekEntry
from kitchen.stores.orders.models import Order
from tests.builders.cast import TERM
from tests.faults.hands import key_of

#: The hash of a week in which no lesson needs anything.
NOTHING_NEEDED = hash_of(inputs_of(()))


def begin_orders(who):
    """The pack that is ordered, and who orders."""
    return User.objects.get(username="stores"), Pack.objects.get(supplier__code="faulty").pk


def day_of(number: int):
    """Each try has a delivery day of its own."""
    return TERM + timedelta(number)


def order_of_try(number: int) -> Order:
    """The draft that lay there before the try."""
    return Order.objects.get(code=f"TRY{number:05}")


def accept_one_pack(facts, number, key) -> str:
    """One pack more for the day of the try, accepted from a page that each hand opened itself."""
    by, pack = facts
    orders = (OrderEntry(day_of(number), (LineEntry(pack, 1, 1),)),)
    try:
        accept_week(entry=WeekEntry(TERM, orders, number, NOTHING_NEEDED), by=by)
    except RuleBroken as refused:
        return refused.code
    return "accepted"


def send_the_draft(facts, number, key) -> str:
    """The draft of the try is sent; the answer says how many packs were on it then."""
    by, _ = facts
    try:
        with transaction.atomic():
            order = note_sent(order=order_of_try(number), agreed="Rang them.", by=by, key=key)
            packs = order.lines.aggregate(packs=Sum("count"))["packs"]
    except RuleBroken as refused:
        return refused.code
    return f"sent-{packs}"


def begin_own(who):
    """The same, and who of the hands it is: each has a page of their own open."""
    return *begin_orders(who), who


def send_on_own_page(facts, number, key) -> str:
    """The draft is sent from a page that each hand opened itself."""
    *facts, who = facts
    return send_the_draft(facts, number, key_of("send", number, who))


def change_the_draft(facts, number, key) -> str:
    """One pack more is written on the draft of the try."""
    by, pack, who = facts
    lines = [LineEntry(pack, 2, 1)]
    try:
        change_order(order=order_of_try(number), lines=lines, by=by, key=key_of("change", number, who))
    except RuleBroken as refused:
        return refused.code
    return "changed"


def cancel_the_draft(facts, number, key) -> str:
    """The draft of the try is cancelled."""
    try:
        cancel_order(order=order_of_try(number), why="Not needed.", by=facts[0], key=key)
    except RuleBroken as refused:
        return refused.code
    return "cancelled"


ORDER_DEEDS = {
    "order_accept": (begin_orders, accept_one_pack),
    "order_send": (begin_orders, send_the_draft),
    "order_send_own": (begin_own, send_on_own_page),
    "order_change": (begin_own, change_the_draft),
    "order_cancel": (begin_orders, cancel_the_draft),
}
