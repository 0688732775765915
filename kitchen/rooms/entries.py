"""What is said of a room with its benches, appliances and small equipment before they are rows."""

from dataclasses import dataclass

#: Seconds for each 10 °C while nobody has measured the oven: one minute up, two down. Common
#: practice, no source; an oven's own figures take their place.
HEAT_SECONDS_PER_10, COOL_SECONDS_PER_10 = 60, 120


@dataclass(frozen=True, slots=True)
class ApplianceEntry:
    """One setting of its own. ``units`` is what can be used at once; ``body`` fails as a whole.

    Seconds are for each 10 °C of heating up or cooling down. ValueError for no unit at all.
    """

    code: str
    name: str
    kind: str
    units: int = 1
    body: str = ""
    heat: tuple[str, ...] = ()
    heat_seconds_per_10: int = HEAT_SECONDS_PER_10
    cool_seconds_per_10: int = COOL_SECONDS_PER_10
    least_decicelsius: int | None = None
    most_decicelsius: int | None = None
    can_stand_off_and_shut: bool = False
    capacity_note: str = ""

    def __post_init__(self) -> None:
        if self.units < 1:
            raise ValueError(f"The appliance {self.code} holds nothing.")


@dataclass(frozen=True, slots=True)
class RoomEntry:
    """One room. ``benches`` are (number, cooks), ``equipment`` (item, count)."""

    code: str
    name: str
    purpose: str
    seats: int
    decicelsius: int
    benches: tuple[tuple[int, int], ...] = ()
    appliances: tuple[ApplianceEntry, ...] = ()
    equipment: tuple[tuple[str, int], ...] = ()
    note: str = ""
