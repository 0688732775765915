"""The plan pushed to the right: what came later moves everything behind it, and nothing else.

For ``solver.py``: the first answer to any disturbance, always there, in milliseconds. The
rule, in prose:

1. What has begun stays. What is still to come wishes to begin when it was planned, or now.
2. In the order of those wishes each thing takes the first minute at which it fits, in its
   own oven; where that failed (or, asked to, where another is sooner), in another.
3. Things at fixed distances (hands, then the oven at once) are placed together.
4. Where food is then held too long before something late, what comes before it is moved
   later by what is missing, and all is placed once more; the cheaper answer counts.

Worked example: bench 4 needs five minutes more. Its bake moves from 80 to 85; bench 6 is
next in that oven at 110 and the bake now ends at 113: bench 6 moves to 113.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from kitchen.timeplan.answer import Answer, ready_at
from kitchen.timeplan.blocks import ways_to_block
from kitchen.timeplan.day.situation import Situation, holds_broken, price
from kitchen.timeplan.problem import Demonstration, Oven, Task
from kitchen.timeplan.taken import Taken

#: A thing that does not fit within so many minutes does not fit at all.
FAR = 1500
#: How often what stands before a broken hold is moved later.
REPAIRS = 12


@dataclass(frozen=True)
class _Item:
    """Tasks at fixed distances, or one demonstration: placed at once. Names with minutes after its start."""

    members: tuple[tuple[str, int], ...]
    show: Demonstration | None = None


@dataclass
class _Push:
    """One pass of the rule."""

    at: Situation
    items: list[_Item]
    other_ovens: bool
    release: dict[str, int] = field(default_factory=dict)
    starts: dict[str, int] = field(default_factory=dict)

    def run(self) -> Answer | None:
        """The answer, or None when something fits nowhere."""
        self.room = _room_at(self.at)
        self.item_of = {name: i for i, item in enumerate(self.items) for name, _ in item.members}
        self.starts = {name: self.at.old.starts[name] for name in self.at.past.fixed}
        waiting = sorted(range(len(self.items)), key=self._wish)
        before = self._before()
        while waiting:
            ready = next((i for i in waiting if before[i] <= self.starts.keys()), None)
            if ready is None or not self._place(self.items[ready]):
                return None
            waiting.remove(ready)
        ovens = {t.name: self.at.old.ovens[t.name] for t in self.at.problem.tasks if t.bake is not None}
        return Answer(self.starts, ovens | {n: o.name for n, o in self.room.oven_of.items()})

    def _wish(self, number: int) -> tuple[int, int, int]:
        members = self.items[number].members
        wish = max(self.at.wished[name] - offset for name, offset in members)
        return wish, min(self.at.old.starts[name] for name, _ in members), number

    def _before(self) -> list[set[str]]:
        """What must be placed before each item: ends of windows and demonstrations."""
        out = []
        for item in self.items:
            own = {name for name, _ in item.members}
            names: set[str] = set()
            for name in own & self.at.problem.task.keys():
                names |= {w.before for w in self.at.problem.windows_before[name]}
                names |= {shown} if (shown := self.at.problem.task[name].shown_by) else set()
            out.append(names - own)
        return out

    def _place(self, item: _Item) -> bool:
        start = self._earliest(item)
        for minute in range(start, start + FAR):
            if item.show is not None:
                if self.room.show_blocked_at(item.show, minute) is None:
                    self.room.put_show(item.show, minute)
                    self.starts[item.show.name] = minute
                    return True
            elif self._fits(item, minute):
                return True
        return False

    def _earliest(self, item: _Item) -> int:
        """Not before it wishes, nor before what it waits for has ended."""
        start = max(self.at.now, *(self.at.wished[name] - offset for name, offset in item.members))
        own = {name for name, _ in item.members}
        for name, offset in item.members:
            start = max(start, self.release.get(name, 0) - offset)
            task = self.at.problem.task.get(name)
            if task is None:
                continue
            if task.shown_by:
                start = max(start, self._end(task.shown_by) - offset)
            for window in self.at.problem.windows_before[name]:
                if window.before not in own:
                    start = max(start, self._end(window.before) + window.least - offset)
        return start

    def _end(self, name: str) -> int:
        task = self.at.problem.task.get(name)
        show = next((d for d in self.at.problem.demonstrations if d.name == name), None)
        return self.starts[name] + (task.minutes if task else show.minutes if show else 0)

    def _fits(self, item: _Item, start: int) -> bool:
        """Put every member at its minute; all or none."""
        put: list[tuple[Task, int]] = []
        for name, offset in item.members:
            task, minute = self.at.problem.task[name], start + offset
            oven = self._oven(task, minute) if task.bake is not None else None
            if self.room.blocked_at(task, minute) is not None or (task.bake is not None and oven is None):
                for other, when in put:
                    self.room.put(other, when, -1)
                return False
            if oven is not None:
                self.room.oven_of[name] = oven
            self.room.put(task, minute)
            put.append((task, minute))
        self.starts |= {task.name: minute for task, minute in put}
        return True

    def _oven(self, task: Task, minute: int) -> Oven | None:
        """Its own oven where that works and takes it; another where it may look further."""
        own = next(o for o in self.at.problem.ovens if o.name == self.at.old.ovens[task.name])
        if self._takes(own, task, minute):
            return own
        works = self.at.works(own) and own.takes(task.bake)
        if works and not self.other_ovens:
            return None
        others = [o for o in self.at.problem.ovens if o != own and self._takes(o, task, minute)]
        return min(others, key=lambda o: (len(self.room.inside[o.name]), o.name), default=None)

    def _takes(self, oven: Oven, task: Task, minute: int) -> bool:
        if task.bake is None or not self.at.works(oven) or minute < ready_at(self.at.past, oven, task.bake):
            return False
        return self.room.takes(oven, task.bake, minute)


def _room_at(at: Situation) -> Taken:
    """What the past still takes from now on."""
    room = Taken(at.problem, {})
    for show in at.problem.demonstrations:
        left = at.end_of(show.name) - at.now if show.name in at.past.fixed else 0
        if left > 0:
            room.put_show(replace(show, minutes=left), at.now)
    for task in at.problem.tasks:
        if task.name not in at.past.fixed:
            continue
        start = at.old.starts[task.name]
        if task.bake is not None:
            inside = (start, start + task.minutes, task.bake, task.name)
            room.inside[at.old.ovens[task.name]].append(inside)
        left = start + task.minutes - at.now
        if left > 0:
            room.put(replace(task, minutes=left, bake=None), at.now)
            room.needed.pop(task.name, None)
    return room


def _items(at: Situation) -> list[_Item]:
    """What is placed at once: things still to come at fixed distances, and each demonstration."""
    coming = at.coming
    names = {task.name for task in coming}
    shows = [
        _Item(((show.name, 0),), show) for show in at.problem.demonstrations if show.name not in at.past.fixed
    ]
    if not coming:
        return shows
    windows = tuple(w for w in at.problem.windows if {w.before, w.after} <= names)
    rest = replace(at.problem, tasks=coming, windows=windows)
    return shows + [_Item(block.members) for block in next(ways_to_block(rest))]


def pushed(at: Situation, may_go_on: Callable[[], bool] = lambda: True) -> list[Answer]:
    """Answers by the rule, the cheapest first; empty when something fits nowhere any more."""
    items = _items(at)
    found = []
    for other_ovens in (False, True):
        answer = _repaired(at, items, other_ovens, may_go_on)
        if answer is not None:
            found.append(answer)
        if found and price(at, found[0]).figure == 0:
            break
    return sorted(found, key=lambda answer: price(at, answer).figure)


def _repaired(
    at: Situation, items: list[_Item], other_ovens: bool, may_go_on: Callable[[], bool]
) -> Answer | None:
    """The pass, and passes with what stands before broken holds moved later; the cheapest of them."""
    release: dict[str, int] = {}
    best: Answer | None = None
    for _ in range(REPAIRS):
        answer = _Push(at, items, other_ovens, release).run()
        if answer is None:
            return best
        if best is None or price(at, answer).figure < price(at, best).figure:
            best = answer
        broken = [(w, over) for w, over in holds_broken(at, answer) if w.before not in at.past.fixed]
        if not broken or not may_go_on():
            return best
        for window, over in broken:
            release[window.before] = answer.starts[window.before] + over
    return best
