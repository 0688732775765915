"""What a requisition asks for beside food: each thing with who is to lend it and what stays short.

For the page of the requisition. Plain data; the words why were kept when it was drawn up.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from curriculum import wording
from kitchen.stores.tools.kinds import counted, order_of


@dataclass(frozen=True, slots=True)
class AskedLine:
    """So many of one thing out of one place; ``place`` 0 and no name: short."""

    item: str
    place: int
    name: str
    count: int
    words: str = ""


@dataclass(frozen=True, slots=True)
class AskedThing:
    """One thing in words: "2 flan tins", "1 from Saffron Kitchen", 1 short, and why."""

    what: str
    loans: str
    short: int
    words: str


@dataclass(frozen=True, slots=True)
class EquipmentAsked:
    """Everything that is asked for, knives first; ``changed`` when it would be asked otherwise now."""

    things: tuple[AskedThing, ...] = ()
    changed: bool = False


def things_of(lines: Iterable[AskedLine]) -> tuple[AskedThing, ...]:
    """The lines by thing."""
    by_item: dict[str, list[AskedLine]] = {}
    for line in lines:
        by_item.setdefault(line.item, []).append(line)
    return tuple(_thing(item, by_item[item]) for item in sorted(by_item, key=order_of))


def _thing(item: str, lines: list[AskedLine]) -> AskedThing:
    loans = [f"{line.count} from {line.name}" for line in lines if line.place]
    short = sum(line.count for line in lines if not line.place)
    total = sum(line.count for line in lines)
    return AskedThing(counted(total, item), wording.listed(loans), short, lines[0].words)


def same(one: Iterable[AskedLine], other: Iterable[AskedLine]) -> bool:
    """Whether both ask for as many of the same things, and leave as many short, whoever lends."""
    return _figures(one) == _figures(other)


def _figures(lines: Iterable[AskedLine]) -> tuple[Counter[str], Counter[str]]:
    together, short = Counter[str](), Counter[str]()
    for line in lines:
        together[line.item] += line.count
        short[line.item] += 0 if line.place else line.count
    return together, short
