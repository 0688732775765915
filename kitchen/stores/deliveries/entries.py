"""What the delivery check is given: plain data that refuses nonsense."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class LineEntry:
    """One line as somebody checked it.

    ``food`` is a code; ``order_line`` and ``pack`` are keys, None without one. ``taken`` or rejected,
    and ``why``; ``short_date_why`` is why it is taken in with a date that is short. ``contains`` and
    ``may_contain`` count when ``label_read``. ``gtin`` is remembered for the pack when it has none.
    ``seen`` is how many lines of the delivery the person saw.
    """

    food: str
    count: int
    milligrams: int
    taken: bool = True
    substitute: bool = False
    why: str = ""
    order_line: int | None = None
    pack: int | None = None
    decicelsius: int | None = None
    batch: str = ""
    date_kind: str = "none"
    dated_on: date | None = None
    short_date_why: str = ""
    label_read: bool = False
    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    lot_code: str = ""
    reserved_free_from: bool = False
    gtin: str = ""
    seen: int = 0

    def __post_init__(self) -> None:
        if self.taken and (self.count <= 0 or self.milligrams <= 0):
            raise ValueError("What is taken in is something.")
        if (self.date_kind == "none") != (self.dated_on is None):
            raise ValueError("A line has a date exactly where its kind of date says so.")
