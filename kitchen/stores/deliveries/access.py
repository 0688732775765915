"""Who checks deliveries: stores and technician. Not there is 404, a role that never may is 403."""

from django.http import Http404

from curriculum.people.models import User
from kitchen.stores.access import keeper_of_stock
from kitchen.stores.deliveries.models import Delivery, DeliveryLine
from kitchen.stores.deliveries.queries import lines_of
from kitchen.stores.orders.models import OrderLine


def delivery_for(by: User, code: str) -> Delivery:
    """One delivery, for stores and technician."""
    keeper_of_stock(by)
    found = Delivery.objects.filter(code=code).select_related("order", "supplier", "by", "closed_by").first()
    if found is None:
        raise Http404("No such delivery.")
    return found


def line_for(by: User, code: str, number: int) -> DeliveryLine:
    """One checked line of a delivery."""
    found = delivery_for(by, code)
    line = lines_of(found).prefetch_related("food__allergens", "order_line__pack__food__allergens")
    line = line.filter(number=number).first()
    if line is None:
        raise Http404("No such line.")
    line.delivery = found
    return line


def order_line_of(delivery: Delivery, key: str) -> OrderLine | None:
    """The line of the delivery's order with that key; None without one, 404 for another order's."""
    if not key:
        return None
    rows = OrderLine.objects.filter(order=delivery.order_id).select_related("pack__food")
    line = rows.filter(pk=key).first() if key.isascii() and key.isdigit() and len(key) < 15 else None
    if line is None:
        raise Http404("No such line of the order.")
    return line
