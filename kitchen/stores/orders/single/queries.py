"""What the pages and papers of one order read."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Prefetch, Q, QuerySet

from curriculum.foods.models import Pack
from curriculum.people.queries import now_at, the_college
from kitchen.stores.deliveries.models import Delivery, DeliveryLine
from kitchen.stores.orders.filling import Filling
from kitchen.stores.orders.models import Order, OrderLine
from kitchen.stores.orders.queries import food_words, supplier_data
from kitchen.stores.orders.sheet import OrderSheet, SheetLine

#: Of a delivery what was taken in with a date that was short.
SHORT_DATED = Prefetch(
    "lines",
    DeliveryLine.objects.filter(verdict=DeliveryLine.Verdict.TAKEN)
    .exclude(short_date="")
    .select_related("food")
    .order_by("number"),
    to_attr="short_dated",
)


@dataclass(frozen=True)
class OrderPage:
    """One order with its lines in words, what it comes to, until when it is sent, and what came.

    ``short_dated`` is what was taken in of it with a date that was short.
    """

    order: Order
    sheet: OrderSheet
    send_by: datetime
    late: bool
    below_pence: int
    checks: tuple[Delivery, ...] = ()
    short_dated: tuple[DeliveryLine, ...] = ()


def order_page(order: Order) -> OrderPage:
    """Everything that the page of an order shows; the order comes from ``orders_with_lines``.

    Two queries more for what came of it; none while it is a draft.
    """
    supplier = supplier_data(order.supplier)
    now = now_at(the_college()).replace(tzinfo=None)
    sheet = order_sheet(order)
    until = supplier.send_by(order.for_on)
    draft = order.state == Order.State.DRAFT
    below = 0 if order.supplements_id else max(0, supplier.least_pence - sheet.pence)
    checks = () if draft else tuple(order.deliveries.order_by("on", "pk").prefetch_related(SHORT_DATED))
    short = tuple(line for check in checks for line in check.short_dated)
    return OrderPage(order, sheet, until, draft and now > until, below if draft else 0, checks, short)


def order_sheet(order: Order) -> OrderSheet:
    """An order as it is printed and sent."""
    college = the_college()
    return OrderSheet(
        order.code,
        order.supplier.name,
        order.for_on,
        college.name,
        college.address,
        tuple(map(sheet_line, order.lines.all())),
        order.supplements.code if order.supplements else "",
        order.by.printed_name,
    )


def sheet_line(line: OrderLine) -> SheetLine:
    """A line of an order in words."""
    words, pack = food_words(line.pack.food), line.pack
    return SheetLine(
        pack.pk,
        words.name,
        words.amount(pack.milligrams),
        line.count,
        line.proposed,
        line.pence_a_pack,
        Filling(line.fill_packs, line.fills_from, line.fills_until) if line.fill_packs else None,
    )


def packs_to_add(order: Order) -> QuerySet[Pack]:
    """What else its supplier sells on its day."""
    rows = Pack.objects.filter(supplier=order.supplier, from_on__lte=order.for_on)
    rows = rows.filter(Q(until_on=None) | Q(until_on__gte=order.for_on))
    return (
        rows.exclude(pk__in=order.lines.values("pack"))
        .select_related("food")
        .order_by("food__name", "milligrams")
    )
