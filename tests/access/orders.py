"""Who may open the pages of the week and of orders."""

from uuid import uuid4

from curriculum.foods.models import Food, Pack, Supplier
from kitchen.stores.orders.changed import as_it_stands
from kitchen.stores.orders.models import Order, OrderLine
from tests.access_matrix import Row, answers
from tests.builders.cast import TERM, TODAY

READ = answers(200, "stores technician lecturer other_lecturer cover manager", rest=403)
ORDER = answers(200, "stores", rest=403)
ORDER_POST = answers(302, "stores", rest=403)


def keyed(cast):
    return {"key": str(uuid4())}


def an_order(cast):
    """A draft with one line."""
    supplier = Supplier.objects.create(
        code="dairy", name="Dairy", lead_days=1, cut_off="12:00", delivery_weekdays=[1, 2, 3, 4, 5, 6, 7]
    )
    food = Food.objects.get(code="butter")
    pack = Pack.objects.create(food=food, supplier=supplier, milligrams=10**6, pence=800, from_on=TERM)
    order = Order.objects.create(supplier=supplier, code="ORD23456", for_on=TODAY, by=cast.stores)
    order.lines.create(pack=pack, count=2, pence_a_pack=800)
    return {"code": order.code}


def counts(cast):
    pack = Pack.objects.filter(supplier__code="dairy").first()
    lines = OrderLine.objects.filter(order__state="draft").values_list("pack", "count")
    return keyed(cast) | {f"n_{pack.pk}": "3", "seen": as_it_stands(lines)}


def agreed(cast):
    return keyed(cast) | {"agreed": "Rang them."}


def a_par_level(cast):
    return keyed(cast) | {"par_milligrams": "500"}


def a_closed_day(cast):
    return keyed(cast) | {"on": f"{TODAY:%Y-%m-%d}", "words": "Stock count."}


def to_accept(cast):
    """The page of the week says no to an empty form and shows itself again."""
    return keyed(cast)


ROWS = (
    Row("stores:this_week", "GET", READ),
    Row("stores:this_week", "POST", ORDER, {}, to_accept),
    Row("stores:week", "GET", READ, {"on": f"{TODAY:%Y-%m-%d}"}),
    Row("stores:week", "POST", ORDER, {"on": f"{TODAY:%Y-%m-%d}"}, to_accept),
    Row("stores:orders", "GET", READ, lambda cast: an_order(cast) and {}),
    Row("stores:order", "GET", READ, an_order),
    Row("stores:order", "POST", ORDER_POST, an_order, counts),
    Row("stores:order_sent", "POST", ORDER_POST, an_order, agreed),
    Row("stores:order_cancelled", "POST", ORDER_POST, an_order, lambda cast: keyed(cast) | {"why": "Twice."}),
    Row("stores:order_pdf", "GET", READ, an_order),
    Row("stores:order_csv", "GET", READ, an_order),
    Row("stores:kept_to", "GET", READ),
    Row("stores:close_day", "POST", ORDER_POST, {}, a_closed_day),
    Row("stores:fill_weeks", "POST", ORDER_POST, {}, lambda cast: {"weeks": "3"}),
    Row("stores:open_day", "POST", ORDER_POST, {"on": f"{TODAY:%Y-%m-%d}"}),
    Row("stores:par", "GET", READ),
    Row("stores:keeping", "GET", ORDER, {"food": "butter"}),
    Row(
        "stores:keeping",
        "POST",
        ORDER_POST,
        {"food": "butter"},
        a_par_level,
    ),
)
