"""The rooms of the college with what stands in them."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count, F, Q, QuerySet, Value
from django.db.models.functions import Replace
from django.utils import timezone

from curriculum.people.models import College
from curriculum.wording import clock, counted, counted_words, listed, sentence, short_date, temperature_range
from kitchen.rooms.listed import SETTING, listed_kinds
from kitchen.rooms.models import Appliance, Closure, Equipment, Room


@dataclass(frozen=True, slots=True)
class ApplianceLine:
    """One appliance in words: what it is, what it can hold, how hot it gets."""

    name: str
    holds: str
    heat: str
    note: str


@dataclass(frozen=True, slots=True)
class RoomPage:
    """Everything that stands in one room, and when it is closed."""

    room: Room
    benches: list[tuple[int, int]]
    appliances: list[ApplianceLine]
    equipment: list[tuple[str, int]]
    closures: list[tuple[str, str]]

    @property
    def facts(self) -> str:
        """How many benches and appliances, in one sentence."""
        benches = counted_words(len(self.benches), "bench", "benches")
        return sentence(f"{benches}, {counted_words(len(self.appliances), 'appliance')}")


#: What one unit of an appliance is called.
UNITS = {"oven": "shelf", "hob": "ring", "chiller": "shelf", "blast_chiller": "shelf", "freezer": "shelf"}
PLURALS = {"shelf": "shelves"}


def listed_of(college: College) -> frozenset[str]:
    """The kinds of machines and places on the college's list for learners under 18. No query."""
    return listed_kinds(college.settings.get(SETTING))


def rooms() -> QuerySet[Room]:
    """Every room with how many benches and ovens it has. One query."""
    return Room.objects.annotate(
        bench_count=Count("benches", distinct=True),
        oven_count=Count("appliances", Q(appliances__kind="oven"), distinct=True),
        purpose_words=Replace(F("purpose"), Value("_"), Value(" ")),
    )


def room_page(room: Room) -> RoomPage:
    """One room as a whole. Four queries."""
    now = timezone.now()
    closures = (
        Closure.objects.filter(Q(until_at=None) | Q(until_at__gt=now), room=room)
        .select_related("appliance")
        .order_by("from_at")
    )
    return RoomPage(
        room=room,
        benches=list(room.benches.values_list("number", "cooks")),
        appliances=[_appliance(each) for each in room.appliances.all()],
        equipment=[(each.item.replace("_", " "), each.count) for each in _equipment(room)],
        closures=[(_closed(each), each.why) for each in closures],
    )


def _equipment(room: Room) -> QuerySet[Equipment]:
    return room.equipment.order_by("item")


def _appliance(row: Appliance) -> ApplianceLine:
    unit = UNITS.get(row.kind, "")
    heat = temperature_range(row.least_decicelsius, row.most_decicelsius)
    ways = listed(row.heat)
    return ApplianceLine(
        name=row.name,
        holds=counted(row.units, unit, PLURALS.get(unit, "")) if unit else "",
        heat=", ".join(words for words in (ways, heat) if words),
        note=row.capacity_note,
    )


def _closed(row: Closure) -> str:
    what = row.appliance.name if row.appliance else "The whole room"
    until = f" until {_instant(row.until_at)}" if row.until_at else ", with no end known"
    return f"{what} from {_instant(row.from_at)}{until}"


def _instant(at: datetime) -> str:
    return f"{short_date(at.date())} {clock(at.time())}"
