"""The best way to show a recipe in a slot: which steps live, which as trays, which beforehand.

For ``demonstration``. The rule, in words
-----------------------------------------
Each node of a recipe (``demonstration_steps``) is

- **live**: the hands are seen; what follows takes this very piece when its wait is over;
- **swapped**: the hands are seen, then a finished one comes in, so that nobody waits;
- **a stage tray**: not worked; a finished one is brought in and shown;
- **ready**: not shown; a finished one stands there for a step that is live;
- **left out**: not shown, and no live step takes it.

A tray for the look alone would cost a batch: only what a live step takes up, or the dish, is one.
A live step needs what stands before it live, or prepared. The last node of the dish is live
or a tray: the class sees the dish. What is prepared keeps at least ``SHORTEST_HOLD`` minutes.
The demonstrator's hands never wait: what is shown follows one upon the other, and a wait is
either filled by other steps or cut by a finished one. Shown in the order of the method: what
stands behind a step comes before it.

The best is: fewest target techniques not shown live; then fewest minutes of hands to prepare;
then fewest steps not shown; then fewest minutes. What several prepared things share is made
once for all of them (one bowl of paste for a shell and a baked tart), so the hands of a step
count once, however many things it stands behind (common practice, no source).

Worked example: a paste (8 min) rests 30 and is lined (10) and that is the dish. In 20 minutes
with the paste asked for live: paste live, a rested one comes in (1), lining live: 19 minutes,
and 8 to prepare. Not asked for, the rested paste is a tray (2), then lining live: 12.

How it is found
---------------
Without the order of the hands the best completion is a sum along the nodes from the last to
the first, remembered for each set of things asked for (``_Bounds``). Best-first search along
these bounds meets the plans from the best on; the first whose order exists is the best.
"""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import count

from kitchen.timeplan.demonstration_order import in_order
from kitchen.timeplan.demonstration_steps import (
    LIVE,
    OUT,
    READY,
    SWAP_MINUTES,
    SWAPPED,
    TRAY,
    TRAY_MINUTES,
    Edge,
    Steps,
)
from kitchen.timeplan.demonstration_waits import Waits

#: What keeps for less is not prepared: the class would see it past its best. Common practice, no source.
SHORTEST_HOLD = 60
#: So many plans, whole or half decided, are looked at before the search gives up proving.
MOST_LOOKED_AT = 1_500

_MISSED, _COST = 10**8, 10**3


@dataclass(frozen=True, slots=True)
class Found:
    """The way of each node, the order of what is shown, and whether nothing better exists."""

    ways: tuple[str, ...]
    order: tuple[int, ...]
    missed: int
    cost: int
    unshown: int
    minutes: int
    proved: bool = True


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of the nodes before, as bits: by live steps made fresh, prepared, or either.

    ``behind`` are the nodes that stand right behind something prepared: their hands are reckoned.
    """

    fresh: int = 0
    prepared: int = 0
    either: int = 0
    behind: int = 0

    def of(self, index: int) -> tuple[bool, bool, bool]:
        """(fresh, prepared, either) for one node."""
        return bool(self.fresh >> index & 1), bool(self.prepared >> index & 1), bool(self.either >> index & 1)

    def below(self, index: int) -> "Asked":
        """Only what is asked of nodes before this one."""
        bits = (1 << index) - 1
        return Asked(self.fresh & bits, self.prepared & bits, self.either & bits, self.behind & bits)


class Search:
    """One recipe, one slot, some target techniques; it gives up proving after so many ``looks``."""

    def __init__(
        self,
        steps: Steps,
        slot: int,
        targets: frozenset[str],
        *,
        waits: bool = True,
        looks: int = MOST_LOOKED_AT,
    ) -> None:
        self.steps, self.slot, self.targets, self.looks = steps, slot, targets, looks
        self.waits = Waits(steps, slot) if waits else None
        self.right_behind = [
            sum(1 << each for each in {edge.before for edge in steps.before[index]})
            for index in range(len(steps.nodes))
        ]
        self.flows = {edge: self._can_be_filled(edge) for edge in steps.edges}
        self.trained = self._trained(targets)
        self._remembered: dict[tuple[int, Asked, frozenset[str]], list[tuple[int, int]]] = {}

    def _trained(self, targets: frozenset[str]) -> list[frozenset[str]]:
        """The target techniques that the hands of each node show."""
        return [
            frozenset(node.techniques) & targets if node.hands else frozenset() for node in self.steps.nodes
        ]

    def _can_be_filled(self, edge: Edge) -> bool:
        """Whether other steps could ever fill the wait between two nodes."""
        behind, nodes = self.steps.ancestors, self.steps.nodes
        if self.waits is None:
            return edge.least == 0
        # A wait without hands begins with the class when all it needs is prepared: then anything fills it.
        first = behind[edge.before] if nodes[edge.before].hands else 1 << edge.before
        filler = sum(
            max(node.hands + SWAP_MINUTES, TRAY_MINUTES)
            for index, node in enumerate(nodes)
            if not first >> index & 1 and not behind[index] >> edge.after & 1
        )
        return not nodes[edge.after].hands or filler >= edge.least

    # What one node may be

    def options(self, index: int, asked: Asked) -> Iterator[tuple[str, Asked]]:
        """The ways of a node and what it then asks of those before it."""
        for way, below in self._ways(index, asked):
            if is_made(index, way, asked):
                below = replace(below, behind=below.behind | self.right_behind[index])
            yield way, below

    def _ways(self, index: int, asked: Asked) -> Iterator[tuple[str, Asked]]:
        fresh, prepared, either = asked.of(index)
        below, last = asked.below(index), self.steps.is_last(index)
        more = self._asks(index, below)
        wanted = fresh or prepared or either
        if not wanted and not last:
            yield OUT, below
        if not fresh and (wanted or last):
            yield TRAY, below
            if not last:
                yield READY, below
        if more is not None and not prepared:
            yield LIVE, more
        node = self.steps.nodes[index]
        if more is not None and not fresh and wanted and node.stay and node.hands:
            yield SWAPPED, more

    def _asks(self, index: int, below: Asked) -> Asked | None:
        """What a live node asks for; None where it cannot be had in any way."""
        fresh, prepared, either = below.fresh, below.prepared, below.either
        for edge in self.steps.before[index]:
            keeps = edge.keeps is None or edge.keeps >= SHORTEST_HOLD
            bit = 1 << edge.before
            if not keeps and not self.flows[edge]:
                return None
            if keeps and self.flows[edge]:
                either |= bit
            elif keeps:
                prepared |= bit
            else:
                fresh |= bit
        return None if fresh & prepared else Asked(fresh, prepared, either, below.behind)

    def price(
        self, index: int, way: str, asked: Asked, seen: frozenset[str]
    ) -> tuple[int, int, frozenset[str]]:
        """(minutes, worth in one number, less is better; techniques seen from here to the end)."""
        live = way in (LIVE, SWAPPED)
        seen = seen | self.trained[index] if live else seen
        missed = sum(1 for each in self.trained[index] if each not in seen and self._is_first(index, each))
        cost = self.steps.nodes[index].hands if is_made(index, way, asked) else 0
        unshown = int(way in (READY, OUT) and self.steps.nodes[index].hands > 0)
        later = frozenset(each for each in seen if not self._is_first(index, each))
        return self.steps.shown_minutes(index, way), missed * _MISSED + cost * _COST + unshown, later

    def _is_first(self, index: int, technique: str) -> bool:
        return not any(technique in self.trained[each] for each in range(index))

    # Bounds

    def frontier(self, index: int, asked: Asked, seen: frozenset[str]) -> list[tuple[int, int]]:
        """(minutes, worth) of the best ways of all nodes up to this one, any order of the hands."""
        if index < 0:
            return [(0, 0)]
        key = (index, asked, seen)
        if key not in self._remembered:
            made = []
            for way, below in self.options(index, asked):
                minutes, worth, later = self.price(index, way, asked, seen)
                made += [
                    (minutes + more, worth + rest)
                    for more, rest in self.frontier(index - 1, below, later)
                    if minutes + more <= self.slot
                ]
            self._remembered[key] = _only_better(made)
        return self._remembered[key]

    def bound(
        self, index: int, asked: Asked, seen: frozenset[str], used: int, worth: int
    ) -> tuple[int, int] | None:
        """(worth, minutes) that can still be reached; None when the slot is too short."""
        best = None
        for minutes, rest in self.frontier(index, asked, seen):
            if used + minutes > self.slot:
                break
            best = (worth + rest, used + minutes)
        return best

    # The search

    def best(self) -> Found | None:
        """The best plan; None when not even the finished dish can be shown in the slot.

        Where there is too much to look at, the best plan in which no wait is filled stands in,
        not proved.
        """
        found, whole = self._first()
        if found is not None or whole or self.waits is None:
            return found if found is None or whole else replace(found, proved=False)
        stand_in, _ = Search(self.steps, self.slot, self.targets, waits=False)._first()
        return None if stand_in is None else replace(stand_in, proved=False)

    def _first(self) -> tuple[Found | None, bool]:
        """(the first plan along the bounds that has an order, whether everything better was looked at)."""
        last = len(self.steps.nodes) - 1
        numbers = count()
        first = self.bound(last, Asked(), frozenset(), 0, 0)
        heap = [] if first is None else [(first, last, next(numbers), Asked(), frozenset(), 0, 0, ())]
        left, whole = self.looks, True
        while heap and left > 0:
            _, index, _, asked, seen, used, worth, ways = heapq.heappop(heap)
            left -= 1
            if index >= 0:
                for state in self._next(index, asked, seen, used, worth, ways):
                    heapq.heappush(heap, (*state[:2], next(numbers), *state[2:]))
                continue
            order, sure, tried = in_order(self.steps, ways)
            left, whole = left - tried, whole and sure
            if order is not None:
                return self._found(ways, order, worth, used), whole
        return None, whole and not heap

    def _next(
        self, index: int, asked: Asked, seen: frozenset[str], used: int, worth: int, ways: tuple[str, ...]
    ) -> Iterator[tuple]:
        """What can be decided about the next node, each with the best that can come of it."""
        for way, below in self.options(index, asked):
            minutes, more, later = self.price(index, way, asked, seen)
            spent, decided = used + minutes, (way, *ways)
            bound = self.bound(index - 1, below, later, spent, worth + more)
            if bound is not None and (self.waits is None or self.waits.can_be(index, decided, spent)):
                yield bound, index - 1, below, later, spent, worth + more, decided

    def _found(self, ways: tuple[str, ...], order: tuple[int, ...], worth: int, used: int) -> Found:
        return Found(ways, order, *_parts(worth), used)


def _parts(worth: int) -> tuple[int, int, int]:
    """(missed, cost, unshown) of a worth in one number."""
    missed, rest = divmod(worth, _MISSED)
    return missed, *divmod(rest, _COST)


def is_made(index: int, way: str, asked: Asked) -> bool:
    """Whether a node is worked before the class: it is prepared, or stands behind something prepared."""
    return way in (SWAPPED, TRAY, READY) or bool(asked.behind >> index & 1)


def _only_better(labels: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Labels by minutes, each worth less than all before it."""
    kept: list[tuple[int, int]] = []
    for minutes, worth in sorted(labels):
        if not kept or worth < kept[-1][1]:
            kept.append((minutes, worth))
    return kept
