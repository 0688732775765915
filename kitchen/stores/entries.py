"""What the actions of the stores are given: plain data that refuses nonsense."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class LotEntry:
    """One lot as it is taken in.

    ``food`` and ``supplier`` are codes; ``date_kind`` is "use_by", "best_before" or "none",
    with ``date`` exactly where there is one. ``contains``/``may_contain`` are kinds as the
    label says them; ``label_read_on`` is None when nobody has read it yet, ``label_read_by`` the key
    of who did when that is not who takes the lot in. ``restricted``: a substitute that goes only
    into the lessons it is accepted for. ValueError for nonsense.
    """

    code: str
    food: str
    milligrams: int
    received_on: date
    supplier: str = ""
    batch: str = ""
    date_kind: str = "none"
    dated_on: date | None = None
    opened_on: date | None = None
    reserved_free_from: bool = False
    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    label_read_on: date | None = None
    label_read_by: int | None = None
    restricted: bool = False
    pence: int = 0
    note: str = ""

    def __post_init__(self) -> None:
        if self.milligrams <= 0:
            raise ValueError("A lot holds something.")
        if (self.date_kind == "none") != (self.dated_on is None):
            raise ValueError("A lot has a date exactly where its kind of date says so.")


@dataclass(frozen=True, slots=True)
class LabelRead:
    """What somebody read on a label: kinds it contains and may contain, and answers to other facts.

    ``facts`` are pairs such as ("animal_rennet", "no"); what is not answered is left out.
    """

    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    facts: tuple[tuple[str, str], ...] = ()
