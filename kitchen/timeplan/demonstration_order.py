"""The order of what is shown, so that the demonstrator's hands never wait.

For ``demonstration_search``. Given the way of each node, what is shown follows one upon the
other without a gap: what stands behind comes before, a fresh piece is taken up when its wait
is over and before it no longer keeps. A wait without hands (cooling) begins at once.
"""

from kitchen.timeplan.demonstration_steps import LIVE, SWAPPED, TRAY, Edge, Steps

#: So many beginnings of an order are tried before one gives up.
MOST_TRIED = 500
#: Minute at which the hands of each node end, None while they have not.
Ends = tuple[int | None, ...]


def in_order(steps: Steps, ways: tuple[str, ...]) -> tuple[tuple[int, ...] | None, bool, int]:
    """(nodes in the order shown, or None when there is none; whether that is certain; beginnings tried)."""
    order = _Order(steps, ways)
    found = order.search((), order.with_waits((None,) * len(ways)))
    return found, found is not None or order.tried <= MOST_TRIED, order.tried


class _Order:
    def __init__(self, steps: Steps, ways: tuple[str, ...]) -> None:
        self.steps, self.ways = steps, ways
        self.minutes = {
            index: steps.shown_minutes(index, way)
            for index, way in enumerate(ways)
            if way in (SWAPPED, TRAY) or (way == LIVE and steps.nodes[index].hands)
        }
        self.fresh = [self._fresh(index) for index in range(len(ways))]
        self.lags = self._lags()
        self.tried = 0
        self.failed: set[tuple[frozenset[int], Ends]] = set()

    def _fresh(self, index: int) -> list[Edge]:
        """Edges along which a live node takes the very piece that was made before the class."""
        if self.ways[index] not in (LIVE, SWAPPED):
            return []
        return [edge for edge in self.steps.before[index] if self.ways[edge.before] == LIVE]

    def _lags(self) -> list[tuple[int, int, int]]:
        """(before, after, least minutes between) for shown nodes, waits without hands passed over."""
        made = []
        for index in self.minutes:
            waiting = [(edge.before, edge.least) for edge in self.fresh[index]]
            while waiting:
                before, least = waiting.pop()
                if before in self.minutes:
                    made.append((before, index, least))
                else:
                    waiting += [(edge.before, least + edge.least) for edge in self.fresh[before]]
        return made

    def with_waits(self, ends: Ends) -> Ends:
        """Also the beginnings of waits without hands, as soon as what they need is there."""
        made = list(ends)
        for index, way in enumerate(self.ways):
            if made[index] is None and way == LIVE and index not in self.minutes:
                before = [made[edge.before] for edge in self.fresh[index]]
                if None not in before:
                    made[index] = max((made[e.before] + e.least for e in self.fresh[index]), default=0)
        return tuple(made)

    def search(self, done: tuple[int, ...], ends: Ends) -> tuple[int, ...] | None:
        """The rest of an order after what is done; None when there is none."""
        if len(done) == len(self.minutes):
            return done
        key = (frozenset(done), ends)
        self.tried += 1
        if self.tried > MOST_TRIED or key in self.failed or self._is_lost(done, ends):
            return None
        now = sum(self.minutes[index] for index in done)
        for index in self.minutes:
            if index not in done and self._may_begin(index, done, ends, now):
                then = list(ends)
                then[index] = now + self.minutes[index]
                found = self.search((*done, index), self.with_waits(tuple(then)))
                if found is not None:
                    return found
        self.failed.add(key)
        return None

    def _may_begin(self, index: int, done: tuple[int, ...], ends: Ends, now: int) -> bool:
        behind = self.steps.ancestors[index]
        if any(behind >> each & 1 and each != index and each not in done for each in self.minutes):
            return False
        return all(self._in_window(edge, ends, now) for edge in self.fresh[index])

    def _in_window(self, edge: Edge, ends: Ends, starts: int) -> bool:
        end = ends[edge.before]
        return end is not None and end + edge.least <= starts <= self._last_start(edge, end)

    def _last_start(self, edge: Edge, end: int) -> int:
        return 10**6 if edge.keeps is None else end + self.steps.nodes[edge.before].stay + edge.keeps

    def _is_lost(self, done: tuple[int, ...], ends: Ends) -> bool:
        """Whether something is past its time, or a wait can no longer be filled."""
        now = sum(self.minutes[index] for index in done)
        left = [index for index in self.minutes if index not in done]
        return (
            any(self._too_late(index, ends, now) for index in left)
            or any(self._wait_is_broken(index, ends) for index in range(len(ends)))
            or any(self._cannot_fill(lag, left, ends, now) for lag in self.lags if lag[1] in left)
        )

    def _too_late(self, index: int, ends: Ends, now: int) -> bool:
        return any(
            ends[edge.before] is not None and now > self._last_start(edge, ends[edge.before])
            for edge in self.fresh[index]
        )

    def _wait_is_broken(self, index: int, ends: Ends) -> bool:
        """A wait without hands that began later than what it needs keeps."""
        if index in self.minutes or ends[index] is None:
            return False
        return any(ends[index] > self._last_start(edge, ends[edge.before]) for edge in self.fresh[index])

    def _cannot_fill(self, lag: tuple[int, int, int], left: list[int], ends: Ends, now: int) -> bool:
        before, after, least = lag
        behind = self.steps.ancestors
        made = ends[before] is not None
        filler = sum(
            self.minutes[index]
            for index in left
            if not behind[index] >> after & 1 and (made or not behind[before] >> index & 1)
        )
        return filler < (ends[before] + least - now if made else least)
