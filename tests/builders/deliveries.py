"""A supplier at the door: an order that was sent, its delivery, and lines as they are checked."""

from datetime import date

from django.utils import timezone

from curriculum.foods.models import Food, Pack, Supplier
from curriculum.people.models import User
from kitchen.stores.deliveries.actions import begin_delivery, check_line
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import Delivery, DeliveryLine
from kitchen.stores.orders.models import Order, OrderLine
from tests.builders.book import TERM, a_person
from tests.builders.cast import TODAY

#: A number whose check digit is right (check-values, section 12).
GTIN = "09501101530003"


def a_supplier(code: str = "brindle") -> Supplier:
    """A supplier, invented."""
    return Supplier.objects.get_or_create(
        code=code, defaults={"name": "Brindle Larder", "lead_days": 2, "cut_off": "12:00"}
    )[0]


def a_pack(food: str, grams: int = 1000, supplier: str = "brindle", **more) -> Pack:
    """A pack of a food; the food is made when it is not there yet, its label read as naming nothing."""
    row = Food.objects.get_or_create(
        code=food, defaults={"name": food.replace("_", " ").capitalize(), "label_read_on": TERM}
    )[0]
    more = {"pence": 250, "from_on": TERM} | more
    return Pack.objects.create(food=row, supplier=a_supplier(supplier), milligrams=grams * 1000, **more)


def an_order(*packs: Pack, count: int = 4, code: str = "RDER2234", by: User | None = None) -> Order:
    """An order that was sent, so many of each pack."""
    by = by or a_person("hana", "stores")
    order = Order.objects.create(
        supplier=packs[0].supplier,
        code=code,
        for_on=TODAY,
        by=by,
        state=Order.State.SENT,
        sent_at=timezone.now(),
        sent_by=by,
    )
    for pack in packs:
        OrderLine.objects.create(order=order, pack=pack, count=count, pence_a_pack=pack.pence)
    return order


def a_delivery(order: Order | None = None, on: date = TODAY, by: User | None = None) -> Delivery:
    """A delivery whose check is begun."""
    supplier = None if order else a_supplier()
    return begin_delivery(on=on, by=by or a_person("hana", "stores"), order=order, supplier=supplier)


def as_ordered(line: OrderLine, **changes) -> LineEntry:
    """All of an order's line came, its label read as the book has it."""
    food = line.pack.food
    rows = list(food.allergens.all())
    said = {
        "food": food.code,
        "count": line.count,
        "milligrams": line.count * line.pack.milligrams,
        "order_line": line.pk,
        "pack": line.pack_id,
        "label_read": True,
        "contains": tuple(row.kind for row in rows if row.presence == "contains"),
        "may_contain": tuple(row.kind for row in rows if row.presence == "may_contain"),
    }
    return LineEntry(**(said | changes))


def checked(delivery: Delivery, entry: LineEntry, by: User | None = None, on: date = TODAY) -> DeliveryLine:
    """A line that was written down."""
    return check_line(delivery=delivery, entry=entry, on=on, by=by or a_person("hana", "stores"))
