"""One order as data, and as a table (CSV, RFC 4180) for whoever types it into a supplier's page.

A cell that a program could take for a formula begins with an apostrophe
(``curriculum.recipes.interchange.table``).
"""

import csv
import io
from dataclasses import dataclass
from datetime import date

from curriculum.recipes.interchange.table import cell
from kitchen.stores.orders.filling import Filling

HEADS = ("order", "supplier", "deliver on", "food", "pack", "packs", "pence a pack", "pence", "fills up")


@dataclass(frozen=True, slots=True)
class SheetLine:
    """Whole packs of one food; ``proposed`` is what the plan had said, None when a person added them."""

    key: int
    food: str
    pack: str
    count: int
    proposed: int | None
    pence_a_pack: int
    filling: Filling | None = None

    @property
    def fills_words(self) -> str:
        """Which packs only fill up the least order, and when they are used; empty when all are needed."""
        return self.filling.words if self.filling else ""

    @property
    def pence(self) -> int:
        """The price of all packs."""
        return self.count * self.pence_a_pack

    @property
    def by_hand(self) -> bool:
        """Whether a person has ordered another number than was proposed."""
        return self.count != self.proposed


@dataclass(frozen=True, slots=True)
class OrderSheet:
    """An order as it is printed; ``supplements`` is the code of the order that was sent before."""

    code: str
    supplier: str
    on: date
    college: str
    address: str
    lines: tuple[SheetLine, ...]
    supplements: str = ""
    by: str = ""

    @property
    def pence(self) -> int:
        """The packs, without the delivery."""
        return sum(line.pence for line in self.lines)


def table(sheet: OrderSheet) -> str:
    """A head row and one row a line."""
    out = io.StringIO(newline="")
    rows = csv.writer(out)
    rows.writerow(HEADS)
    for line in sheet.lines:
        said = (sheet.code, sheet.supplier, sheet.on.isoformat(), line.food, line.pack)
        figures = (line.count, line.pence_a_pack, line.pence)
        rows.writerow([*map(cell, said), *map(str, figures), cell(line.fills_words)])
    return out.getvalue()
