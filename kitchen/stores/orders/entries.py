"""What the actions of orders are given: plain data that refuses nonsense."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class LineEntry:
    """So many of a pack (its key), and how many were proposed (None: a person added it).

    ``fills`` of those proposed only fill up the least order, for the weeks of these Mondays.
    """

    pack: int
    count: int
    proposed: int | None = None
    fills: int = 0
    fills_from: date | None = None
    fills_until: date | None = None

    def __post_init__(self) -> None:
        if self.count < 0 or self.fills < 0:
            raise ValueError("A count is not below nothing.")
        if self.fills and (self.fills_from is None or self.fills_until is None):
            raise ValueError("What fills up says for which weeks.")

    @property
    def filling(self) -> int:
        """How many of the packs ordered fill up: who orders fewer leaves these out first."""
        return max(0, min(self.count, self.fills - max(0, (self.proposed or 0) - self.count)))


@dataclass(frozen=True, slots=True)
class OrderEntry:
    """The lines that come on one day; whose they are, their packs say."""

    on: date
    lines: tuple[LineEntry, ...]


@dataclass(frozen=True, slots=True)
class WeekEntry:
    """What a person accepts for a week: the orders, and what the page had shown.

    ``number`` is that of the plan accepted last (0: none), ``inputs_hash`` what was computed
    from, ``answer`` what it came to, as plain JSON.
    """

    monday: date
    orders: tuple[OrderEntry, ...]
    number: int
    inputs_hash: str
    answer: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class KeepingEntry:
    """How a food is kept; days None where nobody has said."""

    par_milligrams: int = 0
    delivered_days: int | None = None
    opened_days: int | None = None
    thawed_days: int | None = None
    source: str = ""
