"""A legal plan without the solver: one thing after another, in the order of what is most urgent.

For the first answer on the page, for the solver's warm start, and for colleges where the
solver is not installed. The rule, in prose:

1. Tasks that must begin together, or follow at a fixed distance, are one *block*.
2. The block with the longest work still behind it goes first, as early as its windows,
   hands, ovens and supplies allow.
3. When a block can only begin after its food has been held too long, the block before it
   is moved later by what is missing, with all that follows it, and placed again.
4. Demonstrations stand fixed while the benches are placed round them. They are first put
   one behind another at the start, then just before each is needed, then nudged.

Worked example: rest at most 60 minutes, then line; the cook is busy until minute 100; rest
would end at 25, so lining at 100 is 15 too late: the paste is begun 15 minutes later.
"""

from dataclasses import replace

from kitchen.timeplan.answer import Answer, check, holding_minutes
from kitchen.timeplan.blocks import Block, ways_to_block
from kitchen.timeplan.bounds import best_bound, tails
from kitchen.timeplan.problem import Problem, Task
from kitchen.timeplan.taken import Taken


class NoPlanByHand(Exception):
    """The rule found no order that keeps every hold; a longer search may still find one."""


class _Layout:
    """One pass of the rule: blocks placed round fixed demonstrations."""

    def __init__(self, problem: Problem, shows: dict[str, int], blocks: list[Block]) -> None:
        self.problem, self.blocks, self.room = problem, blocks, Taken(problem, shows)
        self.block_of = {name: i for i, b in enumerate(blocks) for name, _ in b.members}
        self.offset = {name: offset for b in blocks for name, offset in b.members}
        self.shown_at = {d.name: shows[d.name] + d.minutes for d in problem.demonstrations}
        self.start: dict[int, int] = {}
        self.release = [0] * len(blocks)
        self.before, self.after = self._links()

    def _links(self) -> tuple[list[set[int]], list[set[int]]]:
        before: list[set[int]] = [set() for _ in self.blocks]
        after: list[set[int]] = [set() for _ in self.blocks]
        for window in self.problem.windows:
            a, b = self.block_of[window.before], self.block_of[window.after]
            if a != b:
                before[b].add(a)
                after[a].add(b)
        return before, after

    def run(self) -> Answer:
        """Place every block; NoPlanByHand when the repairs do not come to an end."""
        patience = 60 * len(self.blocks) + 2000
        while len(self.start) < len(self.blocks):
            patience -= 1
            if patience < 0:
                raise NoPlanByHand("the holds could not be kept")
            block = self._next()
            earliest, latest, tight = self._limits(block)
            start = self._earliest_fit(block, earliest)
            if latest is not None and start > latest:
                self._move_later(tight, start - latest)
            else:
                self._place(block, start)
        starts = {n: self.start[i] + o for i, b in enumerate(self.blocks) for n, o in b.members}
        return Answer(starts | self.room.shows, {n: o.name for n, o in self.room.oven_of.items()})

    def _next(self) -> int:
        ready = [
            i for i in range(len(self.blocks)) if i not in self.start and self.before[i] <= self.start.keys()
        ]
        if not ready:
            raise NoPlanByHand("blocks wait for one another")
        return min(ready, key=lambda i: self.blocks[i].urgency)

    def _limits(self, block: int) -> tuple[int, int | None, int]:
        """Earliest start, latest start (None: keeps), and the block whose hold makes it latest."""
        earliest, latest, tight = self.release[block], None, -1
        for name, offset in self.blocks[block].members:
            shown = self.problem.task[name].shown_by
            if shown is not None:
                earliest = max(earliest, self.shown_at[shown] - offset)
            for window in self.problem.windows_before[name]:
                source = self.block_of[window.before]
                if source == block:
                    continue
                end = (
                    self.start[source] + self.offset[window.before] + self.problem.task[window.before].minutes
                )
                earliest = max(earliest, end + window.least - offset)
                if window.longest is not None and (latest is None or end + window.longest - offset < latest):
                    latest, tight = end + window.longest - offset, source
        return earliest, latest, tight

    def _earliest_fit(self, block: int, start: int) -> int:
        start = max(start, 0)
        for _ in range(20000):
            later = self._next_start(block, start)
            if later is None:
                return start
            start = later
        raise NoPlanByHand("nothing is free for so long")

    def _next_start(self, block: int, start: int) -> int | None:
        """None when the block fits at that minute, else a later minute to try."""
        for name, offset in self.blocks[block].members:
            wrong = (start + offset) % self.problem.clock_minutes
            if wrong and name in self.problem.on_the_clock:
                return start + self.problem.clock_minutes - wrong
        for name, offset in self.blocks[block].members:
            minute = self.room.blocked_at(self.problem.task[name], start + offset)
            if minute is not None:
                return minute + 1 - offset
        return None if self._all_fit(block, start) else start + 1

    def _all_fit(self, block: int, start: int) -> bool:
        """Whether all members fit at once: put one by one, taken out again."""
        put: list[tuple[Task, int]] = []
        fits = True
        for name, offset in self.blocks[block].members:
            task, at = self.problem.task[name], start + offset
            if self.room.blocked_at(task, at) is not None:
                fits = False
                break
            if task.bake is not None:
                oven = self.room.oven_for(task.bake, at)
                if oven is None:
                    fits = False
                    break
                self.room.oven_of[name] = oven
            self.room.put(task, at)
            put.append((task, at))
        self._ovens_found = {task.name: self.room.oven_of[task.name] for task, _ in put if task.bake}
        for task, at in put:
            self.room.put(task, at, -1)
        return fits

    def _place(self, block: int, start: int) -> None:
        self.start[block] = start
        self.room.oven_of.update(self._ovens_found)
        for name, offset in self.blocks[block].members:
            self.room.put(self.problem.task[name], start + offset)

    def _move_later(self, block: int, minutes: int) -> None:
        """Take a block and all that follows it out again; it may begin so much later."""
        self.release[block] = self.start[block] + minutes
        out = [block]
        while out:
            gone = out.pop()
            if gone not in self.start:
                continue
            for name, offset in self.blocks[gone].members:
                self.room.put(self.problem.task[name], self.start[gone] + offset, -1)
            del self.start[gone]
            out.extend(self.after[gone])


def plan_by_hand(problem: Problem, nudges: int = 24, enough: int = 0) -> Answer:
    """The best legal answer of the rule; ``nudges`` is how often a demonstration is moved.

    An answer that ends by minute ``enough``, or that nothing can beat, is not nudged further.
    NoPlanByHand when no pass keeps every hold. The same question gives the same answer.
    """
    enough = max(enough, best_bound(problem).minutes)
    for blocks in ways_to_block(problem):
        best = _best_of_shows(problem, blocks, nudges, enough)
        if best is not None:
            return best
    raise NoPlanByHand("no order keeps every hold")


def one_pass(problem: Problem) -> Answer:
    """One pass with all demonstrations first: the quickest legal answer there is."""
    return _Layout(problem, _shows_first(problem), next(ways_to_block(problem))).run()


def _best_of_shows(problem: Problem, blocks: list[Block], nudges: int, enough: int) -> Answer | None:
    tried: list[tuple[tuple[int, int], Answer]] = []

    def attempt(shows: dict[str, int]) -> None:
        try:
            answer = _Layout(problem, shows, blocks).run()
        except NoPlanByHand:
            return
        if not check(problem, answer):
            tried.append(((answer.finish(problem), holding_minutes(problem, answer)), answer))

    attempt(_shows_first(problem))
    if problem.demonstrations:
        attempt(_shows_when_needed(problem, blocks))
        for step in range(nudges):
            best = min(tried, key=lambda x: x[0], default=None)
            if best is None or best[0][0] <= enough:
                break
            attempt(_nudged(problem, best[1], step))
    return min(tried, key=lambda x: x[0])[1] if tried else None


def _shows_in_order(problem: Problem) -> list[str]:
    tail = tails(problem)
    need: dict[str, int] = {d.name: 0 for d in problem.demonstrations}
    for task in problem.tasks:
        if task.shown_by:
            need[task.shown_by] = max(need[task.shown_by], task.minutes + tail[task.name])
    return sorted(need, key=lambda name: (-need[name], name))


def _show_order(problem: Problem, wished: dict[str, int]) -> list[str]:
    """As they stand where that is asked for; else by the minute wished for."""
    if problem.shows_in_order:
        return [show.name for show in problem.demonstrations]
    return sorted(wished, key=lambda name: (wished[name], name))


def _settle(problem: Problem, wished: dict[str, int]) -> dict[str, int]:
    """Demonstrations one behind another, none before its wished minute, on the clock."""
    minutes = {d.name: d.minutes for d in problem.demonstrations}
    out, free = {}, 0
    for name in _show_order(problem, wished):
        start = max(free, wished[name])
        if name in problem.on_the_clock:
            start = -(-start // problem.clock_minutes) * problem.clock_minutes
        out[name], free = start, start + minutes[name]
    return out


def _shows_first(problem: Problem) -> dict[str, int]:
    return _settle(problem, {name: i for i, name in enumerate(_shows_in_order(problem))})


def _shows_when_needed(problem: Problem, blocks: list[Block]) -> dict[str, int]:
    """Each demonstration just before the first task that waits for it would begin."""
    bare = replace(
        problem,
        tasks=tuple(replace(t, shown_by=None) for t in problem.tasks),
        demonstrations=(),
        on_the_clock=problem.on_the_clock - {d.name for d in problem.demonstrations},
    )
    try:
        answer = _Layout(bare, {}, blocks).run()
    except NoPlanByHand:
        return _shows_first(problem)
    wished = {}
    for show in problem.demonstrations:
        first = min((answer.starts[t.name] for t in problem.tasks if t.shown_by == show.name), default=0)
        wished[show.name] = max(0, first - show.minutes)
    if problem.clock_minutes > 1:
        wished = {n: s - s % problem.clock_minutes for n, s in wished.items()}
    return _settle(problem, wished)


def _nudged(problem: Problem, answer: Answer, step: int) -> dict[str, int]:
    """Move one demonstration earlier or later, each in turn, by wider and wider steps."""
    shows = {d.name: answer.starts[d.name] for d in problem.demonstrations}
    names = sorted(shows)
    name, turn = names[step % len(names)], step // len(names)
    width = max(problem.clock_minutes, 3) * (1 + turn // 2)
    shows[name] = max(0, shows[name] + (width if turn % 2 else -width))
    return _settle(problem, shows)
