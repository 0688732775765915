"""Trays that stand weighed and are no longer wanted: what is taken apart, and what goes back where.

For the weigh-out after a lesson was cancelled, or after its kits were made again. Nothing has
left the lots, so the book has nothing to take back: only the food has. A tray that is line for
line what a new kit asks for stays as it is.

The rule, in this order
-----------------------
1. Whole pieces go back to their lot.
2. What was weighed from two lots together goes into neither: it is kept under both lot
   numbers for the next kit, or thrown away from both.
3. Chilled and frozen food goes back only if it never left the cold; else it is thrown away
   from its lot.
4. Dry food out of a free-from kit whose lid stayed on goes back into its own pack; all other
   dry food goes back into its own pack when nobody has touched it.

Sources: sealed and cold goes back, opened or touched does not, is trade practice (common
practice, no source); that each weight has its own lot is why two lots together go into neither.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from curriculum import wording
from kitchen.stores.weighout.moments import COLD


@dataclass(frozen=True, slots=True)
class WeighedLine:
    """One weight that stands: its food, how it is kept, how much, and from which lots."""

    food: str
    words: str
    amount: str
    component: str
    milligrams: int
    pieces: int | None
    storage: str
    lots: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WeighedTray:
    """One kit with weights that stand; ``set_number`` is of the kits it belongs to."""

    kit: str
    kind: str
    label: str
    name: str
    set_number: int
    lines: tuple[WeighedLine, ...]
    whole: bool = True
    lidded: bool = False
    same_as: str = ""
    free_from: tuple[str, ...] = ()

    @property
    def asks(self) -> tuple[tuple[str, str, int, int | None], ...]:
        """What stands on it, to be compared with what a new kit asks for."""
        return tuple((line.food, line.component, line.milligrams, line.pieces) for line in self.lines)

    @property
    def back(self) -> tuple[tuple[str, str, str], ...]:
        """Each pot with where it goes: "104 g", "Unsalted butter" and a sentence; one pot for each food."""
        return tuple((pot.amount, pot.words, goes_back(pot, lidded=self.lidded)) for pot in self._pots())

    def _pots(self) -> list[WeighedLine]:
        by_food: dict[str, list[WeighedLine]] = {}
        for line in self.lines:
            by_food.setdefault(line.food, []).append(line)
        return [_together(lines) for lines in by_food.values()]


def amount_of(milligrams: int, pieces: int | None) -> str:
    """What stands on the tray: "104 g", "5 pieces"."""
    return wording.amount(milligrams) if pieces is None else wording.counted(pieces, "piece")


def _together(lines: list[WeighedLine]) -> WeighedLine:
    """The weights of one food on a tray, which stand in one pot."""
    pieces = [line.pieces for line in lines if line.pieces is not None]
    milligrams = sum(line.milligrams for line in lines)
    whole = sum(pieces) if pieces else None
    lots = tuple(dict.fromkeys(lot for line in lines for lot in line.lots))
    amount = amount_of(milligrams, whole)
    return replace(lines[0], amount=amount, milligrams=milligrams, pieces=whole, lots=lots)


def goes_back(line: WeighedLine, *, lidded: bool = False) -> str:
    """Where one weight goes."""
    if not line.lots:
        return "It came from no lot: throw it away, or count it in first."
    lots = f"lot {line.lots[0]}" if len(line.lots) == 1 else f"lots {wording.listed(line.lots)}"
    if line.pieces is not None:
        return f"Back to {lots}, whole."
    if len(line.lots) > 1:
        return f"Into neither of {lots}: keep it under both numbers for the next kit, or throw it away."
    if line.storage in COLD:
        return f"Back to {lots} only if it never left the cold; else throw it away from {lots}."
    if lidded:
        return f"Back into the pack of {lots}: the lid stayed on."
    return f"Back into the pack of {lots} if nobody has touched it; else throw it away from {lots}."


def matched(old: Iterable[WeighedTray], new: Iterable[tuple[str, str, str, tuple, tuple]]) -> dict[str, str]:
    """Which weighed trays a new kit asks for line by line: code of the old kit to that of the new.

    ``new`` are kits without any weight: code, kind, plate, what they are free from, what they ask
    for. Each is used once. A tray that was not weighed as free from the same stands for none.
    """
    free = list(new)
    found: dict[str, str] = {}
    for tray in old:
        wanted = (tray.kind, tray.label, tray.free_from, tray.asks)
        same = next((each for each in free if each[1:] == wanted), None)
        if same is not None and tray.whole:
            free.remove(same)
            found[tray.kit] = same[0]
    return found
