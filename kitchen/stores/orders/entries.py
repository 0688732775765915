"""What the actions of orders are given: plain data that refuses nonsense."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class LineEntry:
    """So many of a pack (its key), and how many were proposed (None: a person added it)."""

    pack: int
    count: int
    proposed: int | None = None

    def __post_init__(self) -> None:
        if self.count < 0:
            raise ValueError("A count is not below nothing.")


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
