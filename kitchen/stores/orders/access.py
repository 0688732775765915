"""Who may look at the week and its orders, and who orders: fetch or refuse.

Stores order; technician, lecturers and the programme manager read. Not there is 404, a role that
never may is 403.
"""

from datetime import date, timedelta

from django.http import Http404

from curriculum.foods.models import Food
from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.people.roles import KITCHEN_HANDS, LECTURER, MANAGER, STORES, TECHNICIAN
from kitchen.stores.orders.models import Order
from kitchen.stores.orders.queries import monday_of, orders_with_lines, weeks_beside

#: On Friday people look at the week that comes (our own choice, no source).
DAYS_AHEAD = timedelta(3)


def may_order(by: User) -> bool:
    """Whether this person orders."""
    return STORES in roles_of(by)


def may_read_requisitions(by: User) -> bool:
    """Whether this person may open the requisition of every lesson, and not only of their own."""
    return bool(roles_of(by) & KITCHEN_HANDS)


def reader(by: User) -> None:
    """Refuse (403) whoever does not read orders."""
    demand_role(by, STORES, TECHNICIAN, LECTURER, MANAGER)


def keeper(by: User) -> None:
    """Refuse (403) whoever does not order."""
    demand_role(by, STORES)


def week_for(by: User, on: str) -> date:
    """The Monday of the week of a day (empty: the week that people order for now); 404 when it is no day."""
    reader(by)
    if not on:
        return monday_of(today_at(the_college()) + DAYS_AHEAD)
    try:
        monday = monday_of(date.fromisoformat(on))
        weeks_beside(monday)
    except (ValueError, OverflowError) as error:
        raise Http404("No such day.") from error
    return monday


def order_for(by: User, code: str) -> Order:
    """One order, for who reads orders."""
    reader(by)
    row = orders_with_lines(Order.objects.filter(code=code)).first()
    if row is None:
        raise Http404("No such order.")
    return row


def order_to_change(by: User, code: str) -> Order:
    """One order, for who orders."""
    keeper(by)
    return order_for(by, code)


def food_to_keep(by: User, code: str) -> Food:
    """One food, for who writes down how it is kept."""
    keeper(by)
    row = Food.objects.filter(code=code, from_tap=False, made_from=None).select_related("keeping").first()
    if row is None:
        raise Http404("No such food.")
    return row
