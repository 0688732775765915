"""What is said of foods, suppliers and packs when they are written down, before they are rows."""

from dataclasses import dataclass
from datetime import date, time


@dataclass(frozen=True, slots=True)
class FoodEntry:
    """One food with the sources of its figures; the words and units are those of the food table.

    ``contains`` and ``may_contain`` are kinds of ``curriculum.allergens``. ``made_from`` is
    the code of the whole piece and ``made_from_milligrams`` what one piece gives of this part.
    ``bloom`` is the strength of a gelatine, ``dough_part`` what it is in a dough or a mix.
    ``piece_weights`` are (what a cook counts, milligrams, source): ("clove", 3000, "…");
    ``yield_figures`` are (usable per mille, whose figure it is), one a table, since tables
    disagree. ValueError for a share outside 1 to 1000 per mille or a figure without its source.
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
    piece_source: str = ""
    dough_part: str = ""
    piece_weights: tuple[tuple[str, int, str], ...] = ()
    yield_figures: tuple[tuple[int, str], ...] = ()

    def __post_init__(self) -> None:
        shares = (self.usable_per_mille, *(share for share, _ in self.yield_figures))
        if not all(1 <= share <= 1000 for share in shares):
            raise ValueError(f"A usable share of {self.code} is not between 1 and 1000 per mille.")
        if not all(figure[-1] for figure in (*self.piece_weights, *self.yield_figures)):
            raise ValueError(f"A figure of {self.code} does not say where it is from.")


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
    gtin: str = ""

    def __post_init__(self) -> None:
        if self.milligrams <= 0 or self.pence < 0:
            raise ValueError(f"A pack of {self.food} needs a weight above 0 and a price not below 0.")
