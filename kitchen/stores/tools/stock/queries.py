"""What the pages of the stock of small equipment read."""

from dataclasses import dataclass

from kitchen.rooms.models import Equipment, Room
from kitchen.stores.tools.kinds import GROUPS, group_of, name_of, order_of
from kitchen.stores.tools.models import EquipmentMove

#: How many changes of a thing its page shows.
LATEST = 40


@dataclass(frozen=True, slots=True)
class StockRow:
    """One thing: how many each place has, those that are out among them."""

    item: str
    places: tuple[Equipment, ...]

    @property
    def name(self) -> str:
        """The thing in words."""
        return name_of(self.item)

    @property
    def count(self) -> int:
        """How many all these places have."""
        return sum(each.count for each in self.places)


def rooms() -> list[Room]:
    """Every place that may have small equipment, by name. One query."""
    return list(Room.objects.order_by("name"))


def stock(room: str = "") -> list[tuple[str, list[StockRow]]]:
    """By group, knives first: every thing with its places; of one room where its code is given. One query."""
    rows = Equipment.objects.select_related("room").order_by("room__name")
    if room:
        rows = rows.filter(room__code=room)
    by_item: dict[str, list[Equipment]] = {}
    for row in rows:
        by_item.setdefault(row.item, []).append(row)
    made = [StockRow(item, tuple(by_item[item])) for item in sorted(by_item, key=order_of)]
    groups = [(group.title, [row for row in made if group_of(row.item) == group]) for group in GROUPS]
    return [(title, lines) for title, lines in groups if lines]


def latest(item: str) -> list[EquipmentMove]:
    """The last changes of a thing in all places, the newest first. One query."""
    rows = EquipmentMove.objects.filter(equipment__item=item)
    rows = rows.select_related("equipment__room", "lesson__group", "other", "by", "place__bench")
    return list(rows.order_by("-pk")[:LATEST])
