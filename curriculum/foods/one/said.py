"""What somebody says of a food, before it is a row: a yield test, a price, a label."""

from dataclasses import dataclass
from datetime import date

#: Facts that other ways of eating ask of a food, in words; each is known yes, known no, or unknown.
FACTS: dict[str, str] = {
    "meat": "meat",
    "pork": "pork",
    "beef": "beef",
    "fish": "fish",
    "slaughter_by_product": "a by-product of slaughter, such as gelatine",
    "animal_rennet": "animal rennet",
    "alcohol": "alcohol",
}


@dataclass(frozen=True, slots=True)
class YieldSaid:
    """A yield test: on a day so many milligrams bought gave so many usable."""

    on: date
    purchased_milligrams: int
    usable_milligrams: int


@dataclass(frozen=True, slots=True)
class PriceSaid:
    """A pack of a supplier (by code) at a price in pence from a day on."""

    supplier: str
    milligrams: int
    pence: int
    from_on: date
    pieces: int | None = None
    for_costing: bool = False


@dataclass(frozen=True, slots=True)
class LabelSaid:
    """What a label says: kinds of ``curriculum.allergens``, and facts as ("meat", "no")."""

    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    read_on: date
