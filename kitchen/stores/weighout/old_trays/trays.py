"""Trays that stand weighed and are no longer wanted: what is taken apart, and what goes back where.

For the weigh-out after a lesson was cancelled, or after its kits were made again. Nothing has
left the lots, so the book has nothing to take back: only the food has. A pot that is just what the
new kit of the same plate asks for stays on its tray, weighed or half weighed; the others come off.

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

from collections.abc import Iterable, Mapping
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


#: The weights of one food on one tray: component, milligrams, pieces, in order.
Pot = tuple[tuple[str, int, int | None], ...]


def pots(lines: Iterable[tuple[str, str, int, int | None]]) -> dict[str, Pot]:
    """Lines (food, component, milligrams, pieces) as one pot a food."""
    by_food: dict[str, list[tuple[str, int, int | None]]] = {}
    for food, *rest in lines:
        by_food.setdefault(food, []).append(tuple(rest))
    return {food: tuple(sorted(found, key=str)) for food, found in by_food.items()}


@dataclass(frozen=True, slots=True)
class NewKit:
    """A kit that is asked for, with the pots that are not weighed on it yet."""

    kit: str
    kind: str
    label: str
    free_from: tuple[str, ...]
    asks: Mapping[str, Pot]


@dataclass(frozen=True, slots=True)
class WeighedTray:
    """One kit with weights that stand; ``set_number`` is of the kits it belongs to.

    ``same_as`` is the new kit of the same plate, ``stays`` the foods of which it asks for just what
    stands here.
    """

    kit: str
    kind: str
    label: str
    name: str
    set_number: int
    lines: tuple[WeighedLine, ...]
    lidded: bool = False
    same_as: str = ""
    stays: frozenset[str] = frozenset()
    free_from: tuple[str, ...] = ()

    @property
    def stands(self) -> dict[str, Pot]:
        """What stands on it, to be compared with what a new kit asks for."""
        return pots((line.food, line.component, line.milligrams, line.pieces) for line in self.lines)

    @property
    def back(self) -> tuple[tuple[str, str, str], ...]:
        """Each pot that comes off with where it goes: "104 g", "Unsalted butter" and a sentence."""
        return tuple(
            (pot.amount, pot.words, goes_back(pot, lidded=self.lidded))
            for pot in self._pots()
            if pot.food not in self.stays
        )

    @property
    def staying(self) -> tuple[str, ...]:
        """Each pot that stays: "104 g Unsalted butter"."""
        return tuple(f"{pot.amount} {pot.words}" for pot in self._pots() if pot.food in self.stays)

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


def matched(old: Iterable[WeighedTray], new: Iterable[NewKit]) -> dict[str, tuple[str, frozenset[str]]]:
    """Which pots of weighed trays a new kit of the same plate asks for: old kit to new kit and foods.

    A pot is asked for once. A tray that was not weighed as free from the same stands for none.
    """
    kits, found = list(new), {}
    asked = {each.kit: dict(each.asks) for each in kits}
    for tray in old:
        plate = (tray.kind, tray.label, tray.free_from)
        for each in kits:
            wanted = asked[each.kit]
            stays = {food for food, pot in tray.stands.items() if wanted.get(food) == pot}
            if stays and plate == (each.kind, each.label, each.free_from):
                found[tray.kit] = (each.kit, frozenset(stays))
                asked[each.kit] = {food: pot for food, pot in wanted.items() if food not in stays}
                break
    return found
