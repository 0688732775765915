"""What is said of foods, suppliers and packs when they are written down, before they are rows."""

from dataclasses import dataclass
from datetime import date, time


@dataclass(frozen=True, slots=True)
class FoodEntry:
    """One food with the sources of its figures; the words and units are those of the food table.

    ``contains`` and ``may_contain`` are kinds of ``curriculum.allergens``. ``made_from`` is
    the code of the whole piece and ``made_from_milligrams`` what one piece gives of this part.
    ``bloom`` is the strength of a gelatine. ValueError for a share outside 1 to 1000 per mille.
    """

    code: str
    name: str
    storage: str
    scaling_class: str
    increment_milligrams: int
    rounding: str
    usable_per_mille: int
    counted_in: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    label_read_on: date | None = None
    piece_milligrams: int | None = None
    edible_piece_milligrams: int | None = None
    made_from: str | None = None
    made_from_milligrams: int | None = None
    milligrams_per_ml: int | None = None
    from_tap: bool = False
    usable_source: str = ""
    density_source: str = ""
    bloom: int | None = None
    note: str = ""

    def __post_init__(self) -> None:
        if not 1 <= self.usable_per_mille <= 1000:
            raise ValueError(f"The usable share of {self.code} is not between 1 and 1000 per mille.")


@dataclass(frozen=True, slots=True)
class SupplierEntry:
    """Who delivers on which weekdays (1 is Monday), and when orders close."""

    code: str
    name: str
    lead_days: int
    cut_off: time
    delivery_weekdays: tuple[int, ...]
    least_order_pence: int
    delivery_pence: int


@dataclass(frozen=True, slots=True)
class PackEntry:
    """One size that one supplier sells; ``pieces`` for foods counted in pieces. ValueError for no weight."""

    food: str
    supplier: str
    milligrams: int
    pence: int
    from_on: date
    pieces: int | None = None
    for_costing: bool = False

    def __post_init__(self) -> None:
        if self.milligrams <= 0 or self.pence < 0:
            raise ValueError(f"A pack of {self.food} needs a weight above 0 and a price not below 0.")
