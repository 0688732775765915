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
5. What a person fixed is placed before everything else. The blocks that must come before it
   go first, by the minute at which each must begin; one that finds no room goes still earlier
   in the next pass. Where no pass keeps what is fixed, the rule says so.

Worked example: rest at most 60 minutes, then line; the cook is busy until minute 100; rest
would end at 25, so lining at 100 is 15 too late: the paste is begun 15 minutes later.
"""

from collections.abc import Callable
from dataclasses import replace

from kitchen.timeplan.answer import Answer, check, holding_minutes
from kitchen.timeplan.blocks import Block, ways_to_block
from kitchen.timeplan.bounds import best_bound, latest_starts
from kitchen.timeplan.byhand_shows import NoPlanByHand, nudged, settle, shows_first
from kitchen.timeplan.choices import choosing, first_choices, settled
from kitchen.timeplan.problem import Problem, Task
from kitchen.timeplan.taken import Taken
from kitchen.timeplan.tasting import plates_wait_too_long

#: Passes in which blocks that found no room before something fixed go earlier. Our own choice, no source.
PASSES = 12


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
        self.due, self.fixed = self._due(), self._fixed()
        self.sooner = [0] * len(blocks)

    def _links(self) -> tuple[list[set[int]], list[set[int]]]:
        before: list[set[int]] = [set() for _ in self.blocks]
        after: list[set[int]] = [set() for _ in self.blocks]
        for window in self.problem.windows:
            a, b = self.block_of[window.before], self.block_of[window.after]
            if a != b:
                before[b].add(a)
                after[a].add(b)
        return before, after

    def _due(self) -> dict[int, int]:
        """The latest start of each block that something fixed limits."""
        latest = latest_starts(self.problem)
        limits = {
            i: [latest[name] - offset for name, offset in b.members if name in latest]
            for i, b in enumerate(self.blocks)
        }
        return {i: min(minutes) for i, minutes in limits.items() if minutes}

    def _fixed(self) -> dict[int, int]:
        """The start of each block with a member that a person fixed."""
        task = self.problem.task
        return {
            i: task[name].earliest - offset
            for i, b in enumerate(self.blocks)
            for name, offset in b.members
            if task[name].earliest == task[name].latest
        }

    def run(self) -> Answer:
        """Place every block; NoPlanByHand when the repairs do not come to an end."""
        self._place_fixed()
        for _ in range(PASSES):
            squeezed = self._pass()
            if squeezed is None:
                break
            self._begin_sooner(squeezed)
        if len(self.start) < len(self.blocks):
            raise NoPlanByHand("what is fixed by hand leaves no room for the rest")
        starts = {n: self.start[i] + o for i, b in enumerate(self.blocks) for n, o in b.members}
        answer = Answer(starts | self.room.shows, {n: o.name for n, o in self.room.oven_of.items()})
        if self.fixed and check(self.problem, answer):
            raise NoPlanByHand("what is fixed by hand contradicts itself or a rule")
        return answer

    def _pass(self) -> int | None:
        """Place what is not placed yet; the block that found no room before something fixed, or None."""
        patience = 60 * len(self.blocks) + 2000
        while len(self.start) < len(self.blocks):
            patience -= 1
            if patience < 0:
                raise NoPlanByHand("the holds could not be kept")
            block = self._next()
            earliest, latest, tight = self._limits(block)
            start = self._earliest_fit(block, earliest)
            if latest is None or start <= latest:
                self._place(block, start)
            elif tight is None or tight in self.fixed:
                return block
            else:
                self._move_later(tight, start - latest)
        return None

    def _place_fixed(self) -> None:
        for block, start in sorted(self.fixed.items(), key=lambda item: item[1]):
            if start < 0 or self._next_start(block, start) is not None:
                raise NoPlanByHand("what is fixed by hand is not free then")
            self._place(block, start)

    def _begin_sooner(self, squeezed: int) -> None:
        """Take out all that is not fixed; this block, and what it waits for, goes before the others."""
        for block in [b for b in self.start if b not in self.fixed]:
            self._take_out(block)
        self.release = [0] * len(self.blocks)
        sooner = [squeezed]
        while sooner:
            block = sooner.pop()
            self.sooner[block] += 1
            sooner.extend(self.before[block] - self.fixed.keys())

    def _next(self) -> int:
        ready = [
            i for i in range(len(self.blocks)) if i not in self.start and self.before[i] <= self.start.keys()
        ]
        if not ready:
            raise NoPlanByHand("blocks wait for one another")
        return min(ready, key=self._turn)

    def _turn(self, block: int) -> tuple[int, float, tuple[int, ...]]:
        """What goes first: what found no room before, then what is due before something fixed."""
        return -self.sooner[block], self.due.get(block, float("inf")), self.blocks[block].urgency

    def _limits(self, block: int) -> tuple[int, int | None, int | None]:
        """Earliest start, latest start (None: keeps), and the block whose hold makes it latest.

        No such block: something fixed makes it latest.
        """
        latest: int | None = self.due.get(block)
        earliest, tight = max(self.release[block], self._not_before_fixed(block)), None
        for name, offset in self.blocks[block].members:
            task = self.problem.task[name]
            earliest = max(earliest, task.earliest - offset)
            if task.shown_by is not None:
                earliest = max(earliest, self.shown_at[task.shown_by] - offset)
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

    def _not_before_fixed(self, block: int) -> int:
        """Food for something fixed may not be ready earlier than its hold allows."""
        earliest = 0
        for name, offset in self.blocks[block].members if self.fixed else ():
            for window in self.problem.windows_after[name]:
                after = self.block_of[window.after]
                if after in self.fixed and after != block and window.longest is not None:
                    start = self.fixed[after] + self.offset[window.after] - window.longest
                    earliest = max(earliest, start - self.problem.task[name].minutes - offset)
        return earliest

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
                oven = self.room.oven_for(task, at)
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
            if gone in self.start and gone not in self.fixed:
                self._take_out(gone)
                out.extend(self.after[gone])

    def _take_out(self, block: int) -> None:
        for name, offset in self.blocks[block].members:
            self.room.put(self.problem.task[name], self.start[block] + offset, -1)
        del self.start[block]


#: Why nothing is tried: it is proved.
PLATES_WAIT = "plates that are ready together wait too long for the taster"


def plan_by_hand(problem: Problem, nudges: int = 24, enough: int = 0) -> Answer:
    """The best legal answer of the rule; ``nudges`` is how often a demonstration is moved.

    An answer that ends by minute ``enough``, or that nothing can beat, is not nudged further.
    NoPlanByHand when no pass keeps every hold. The same question gives the same answer.
    """
    if plates_wait_too_long(problem):
        raise NoPlanByHand(PLATES_WAIT)
    enough = max(enough, best_bound(problem).minutes)
    if choosing(problem):
        return _best_of_choices(problem, nudges, enough)
    for blocks in ways_to_block(problem):
        best = _best_of_shows(problem, blocks, nudges, enough)
        if best is not None:
            return best
    raise NoPlanByHand("no order keeps every hold")


def one_pass(problem: Problem) -> Answer:
    """One pass with all demonstrations first: the quickest legal answer there is."""
    problem = settled(problem, {})
    if plates_wait_too_long(problem):
        raise NoPlanByHand(PLATES_WAIT)
    return _Layout(problem, shows_first(problem), next(ways_to_block(problem))).run()


def _best_of_choices(problem: Problem, nudges: int, enough: int) -> Answer:
    """The rule with the usual ways, with the others, and with machines for the first who find one free."""
    found: list[Answer] = []
    for ways in first_choices(problem):
        try:
            found.append(replace(plan_by_hand(settled(problem, ways), nudges, enough), ways=ways))
        except NoPlanByHand:
            continue
        if found[-1].finish(problem) <= enough:
            break
    if not found:
        raise NoPlanByHand("no order keeps every hold")
    return min(found, key=lambda each: (each.finish(problem), holding_minutes(problem, each)))


def _best_of_shows(problem: Problem, blocks: list[Block], nudges: int, enough: int) -> Answer | None:
    tried: list[tuple[tuple[int, int], Answer]] = []

    def attempt(shows: Callable[[], dict[str, int]]) -> None:
        try:
            answer = _Layout(problem, shows(), blocks).run()
        except NoPlanByHand:
            return
        if not check(problem, answer):
            tried.append(((answer.finish(problem), holding_minutes(problem, answer)), answer))

    attempt(lambda: shows_first(problem))
    if problem.demonstrations:
        attempt(lambda: _shows_when_needed(problem, blocks))
        for step in range(nudges):
            best = min(tried, key=lambda x: x[0], default=None)
            if best is None or best[0][0] <= enough:
                break
            attempt(lambda found=best[1], step=step: nudged(problem, found, step))
    return min(tried, key=lambda x: x[0])[1] if tried else None


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
        return shows_first(problem)
    wished = {}
    for show in problem.demonstrations:
        first = min((answer.starts[t.name] for t in problem.tasks if t.shown_by == show.name), default=0)
        wished[show.name] = max(0, first - show.minutes)
    if problem.clock_minutes > 1:
        wished = {n: s - s % problem.clock_minutes for n, s in wished.items()}
    return settle(problem, wished)
