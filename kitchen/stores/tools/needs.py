"""What a lesson needs of small equipment: its benches, the demonstrator, the stage trays.

For whoever reckons what is short. Each bench needs what its recipe lists; the demonstrator
needs one set too; a thing that is ``shared_by_room`` is counted once, however many use it. A
spare kit is food only: it needs no tin until a bench starts again. A stage tray needs the
tray, and the tin or mould that one of its components lines or fills, because it stands in it
until it is shown: whether the food is in the tin by then no recipe says, so it is counted
(the careful side).

Worked example: seven pairs and one demonstration make a quiche with one flan tin each: eight
tins. A tray of paste and custard lies in a tin of its own: nine. A torch shared by the room
stays one torch.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.recipes.data import EquipmentData, TinData

#: What each stage tray lies on, by the name it has in the list of a room.
TRAY = "stage_tray"


@dataclass(frozen=True, slots=True)
class Needed:
    """One thing: how many each working place takes, and how many the room shares."""

    item: str
    by_bench: tuple[int, ...]
    beside: int = 0

    @property
    def count(self) -> int:
        """How many are needed together; ``beside`` is the demonstrator's, the trays', the shared."""
        return sum(self.by_bench) + self.beside


@dataclass(frozen=True, slots=True)
class Working:
    """What a lesson sets up: a list of equipment for each bench, the demonstrator's, the trays.

    ``trays`` are the components of each stage tray, ``tins`` those of the recipe that is shown.
    """

    benches: tuple[tuple[EquipmentData, ...], ...] = ()
    shown: tuple[EquipmentData, ...] = ()
    trays: tuple[tuple[str, ...], ...] = ()
    tins: tuple[TinData, ...] = ()


def needs_of(working: Working) -> tuple[Needed, ...]:
    """Everything that the lesson needs, by the code of the thing."""
    own = [_own(bench) for bench in working.benches]
    shown = _own(working.shown)
    beside = shown + _for_trays(working) + _shared(working)
    items = sorted({item for bench in own for item in bench} | set(beside))
    return tuple(
        Needed(item, tuple(bench[item] for bench in own if bench[item]), beside[item]) for item in items
    )


def _own(listed: Iterable[EquipmentData]) -> Counter[str]:
    """What one working place has for itself; a thing that is written twice is added up."""
    return _added(each for each in listed if not each.shared_by_room)


def _added(listed: Iterable[EquipmentData]) -> Counter[str]:
    counts: Counter[str] = Counter()
    for each in listed:
        counts[each.item] += each.count
    return counts


def _shared(working: Working) -> Counter[str]:
    """What the room shares: as many as the list that asks for most of it."""
    most: Counter[str] = Counter()
    for listed in (*working.benches, working.shown):
        most |= _added(each for each in listed if each.shared_by_room)
    return most


def _for_trays(working: Working) -> Counter[str]:
    """A tray each, and the tins in which its components lie."""
    needed: Counter[str] = Counter()
    listed = {each.item for each in working.shown}
    for components in working.trays:
        needed[TRAY] += 1
        for tin in working.tins:
            if tin.kind in listed and {tin.lined_with, *tin.filled_with} & set(components):
                needed[tin.kind] += tin.count
    return needed
