"""What labels say and how long a lot keeps once it is opened, for the queries and actions of the stores."""

from datetime import date

from curriculum.allergens import printed
from curriculum.foods.models import Food
from kitchen.stores.deliveries.labels import kinds_beyond
from kitchen.stores.made.bowls import Label
from kitchen.stores.models import Lot
from kitchen.stores.orders.week import Keeps


def names_more(lot: Lot) -> tuple[str, ...]:
    """What the lot's own label names beyond the label of its food: the kits are printed from the food."""
    of_lot = Label(tuple(lot.label_allergens), tuple(lot.label_may_contain))
    return tuple(map(printed, kinds_beyond(of_lot, label_of(lot.food))))


def label_of(food: Food) -> Label:
    """What the label of a food says, as it was read last."""
    rows = sorted(food.allergens.all(), key=lambda row: row.pk)
    contains = tuple(row.kind for row in rows if row.presence == "contains")
    return Label(contains, tuple(row.kind for row in rows if row.presence == "may_contain"))


def last_on(lot: Lot) -> date | None:
    """The last day on which an opened or thawed lot is used, where the stores have said how long it keeps."""
    row = getattr(lot.food, "keeping", None) if lot.opened_on or lot.thawed_on else None
    if row is None:
        return None
    keeps = Keeps(lot.food.storage, 0, row.delivered_days, row.opened_days, row.thawed_days)
    return keeps.last_day(lot.opened_on, lot.thawed_on)
