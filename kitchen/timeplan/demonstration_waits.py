"""Whether the waits of a half-decided demonstration can still be filled.

For ``demonstration_search``, which decides nodes from the last to the first. A wait between two
live nodes is filled by what is shown and stands neither behind the first nor after the second;
what must stand between them may not take longer than the first one keeps. Both are only
necessary: whether an order exists is asked of ``demonstration_order`` at the end.
"""

from dataclasses import dataclass

from kitchen.timeplan.demonstration_steps import (
    LIVE,
    SWAP_MINUTES,
    SWAPPED,
    TRAY,
    TRAY_MINUTES,
    Steps,
)


@dataclass(frozen=True, slots=True)
class Chain:
    """``after`` takes up ``before`` at least ``least`` and at most ``longest`` minutes after its hands.

    ``via`` are waits without hands between them. ``fills`` and ``between`` are bits of nodes:
    what can fill the wait, and what must stand in it.
    """

    before: int
    after: int
    least: int
    longest: int | None
    via: tuple[int, ...]
    fills: int
    between: int


class Waits:
    """The waits of one recipe in one slot."""

    def __init__(self, steps: Steps, slot: int) -> None:
        self.steps, self.slot = steps, slot
        self.chains = [chain for index in range(len(steps.nodes)) for chain in self._chains(index)]
        self.most = [max(node.hands + SWAP_MINUTES, TRAY_MINUTES) for node in steps.nodes]

    def _chains(self, after: int) -> list[Chain]:
        """The chains that end at a node with hands."""
        steps = self.steps
        if not steps.nodes[after].hands:
            return []
        made: list[Chain] = []
        open_ends = [
            (edge, edge.least, self._longest(edge.before, edge.keeps), ()) for edge in steps.before[after]
        ]
        while open_ends:
            edge, least, longest, via = open_ends.pop()
            if steps.nodes[edge.before].hands:
                made.append(self._chain(edge.before, after, least, longest, via))
                continue
            for more in steps.before[edge.before]:
                window = self._longest(more.before, more.keeps)
                both = None if longest is None or window is None else longest + window
                open_ends.append((more, least + more.least, both, (*via, edge.before)))
        return made

    def _longest(self, before: int, keeps: int | None) -> int | None:
        return None if keeps is None else self.steps.nodes[before].stay + keeps

    def _chain(self, before: int, after: int, least: int, longest: int | None, via: tuple[int, ...]) -> Chain:
        behind = self.steps.ancestors
        later = sum(1 << each for each in range(len(behind)) if behind[each] >> after & 1)
        fills = ((1 << len(behind)) - 1) & ~(behind[before] | later)
        between = sum(
            1 << each
            for each in range(len(behind))
            if behind[each] >> before & 1 and behind[after] >> each & 1 and each not in (before, after)
        )
        return Chain(before, after, least, longest, via, fills, between)

    def can_be(self, index: int, ways: tuple[str, ...], used: int) -> bool:
        """Whether every wait can still be filled when the nodes from ``index`` on have these ways."""
        shown = [
            self.steps.shown_minutes(index + at, way) if way in (LIVE, SWAPPED, TRAY) else 0
            for at, way in enumerate(ways)
        ]
        return all(
            self._holds(chain, index, shown, used)
            for chain in self.chains
            if chain.before >= index and self._is_fresh(chain, index, ways)
        )

    def _is_fresh(self, chain: Chain, index: int, ways: tuple[str, ...]) -> bool:
        live = all(ways[each - index] == LIVE for each in (chain.before, *chain.via))
        return live and ways[chain.after - index] in (LIVE, SWAPPED)

    def _holds(self, chain: Chain, index: int, shown: list[int], used: int) -> bool:
        decided = _sum(chain.fills >> index, shown)
        if chain.least > decided:
            open_minutes = _sum(chain.fills, self.most[:index])
            if chain.least > decided + min(open_minutes, self.slot - used):
                return False
        return chain.longest is None or _sum(chain.between >> index, shown) <= chain.longest


def _sum(bits: int, minutes: list[int]) -> int:
    return sum(each for at, each in enumerate(minutes) if bits >> at & 1)
