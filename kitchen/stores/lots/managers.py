"""What labels say, for the queries and the actions of the stores: a food's, and a lot's beyond it."""

from curriculum.allergens import printed
from curriculum.foods.models import Food
from kitchen.stores.deliveries.labels import kinds_beyond
from kitchen.stores.made.bowls import Label
from kitchen.stores.models import Lot


def names_more(lot: Lot) -> tuple[str, ...]:
    """What the lot's own label names beyond the label of its food: the kits are printed from the food."""
    of_lot = Label(tuple(lot.label_allergens), tuple(lot.label_may_contain))
    return tuple(map(printed, kinds_beyond(of_lot, label_of(lot.food))))


def label_of(food: Food) -> Label:
    """What the label of a food says, as it was read last."""
    rows = sorted(food.allergens.all(), key=lambda row: row.pk)
    contains = tuple(row.kind for row in rows if row.presence == "contains")
    return Label(contains, tuple(row.kind for row in rows if row.presence == "may_contain"))
