"""How short no plan can be: bounds proved with pencil and paper, no solver.

For the pages (which chain or which appliance is in the way), and for every answer that is
given without the solver. Two arguments:

- a chain: what must follow one another takes at least the sum of its minutes;
- a load: work that shares something begins no sooner than its least head, ends no later
  than its least tail before the finish, and cannot be done faster than its units allow.

Worked example: seven trays of 35 minutes, ovens for four; none can go in before minute 55
and 31 minutes follow each. 7 x 35 / 4 = 61.25, so 55 + 62 + 31 = 148 minutes at least.
All bounds are of the free question: waves and the clock on the fives do not count.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from kitchen.timeplan.choices import least, longest_minutes
from kitchen.timeplan.problem import Pause, Problem, Task

#: Loads of people, who do nothing in a break.
BY_PEOPLE = frozenset(("hands", "lecturer", "assessor"))


@dataclass(frozen=True, slots=True)
class Bound:
    """At least so many minutes, and why: kind is chain, hands, lecturer, assessor, ovens or supply.

    ``about`` names the bench or supply; ``tasks`` are the names of the tasks that make it.
    """

    minutes: int
    kind: str
    about: str
    tasks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Load:
    """One piece of work on something shared: its units, earliest start, least minutes after it."""

    name: str
    head: int
    minutes: int
    units: int
    tail: int


def best_bound(problem: Problem) -> Bound:
    """The largest bound; the longest chain when nothing is larger."""
    return max(all_bounds(problem), key=lambda bound: bound.minutes)


def all_bounds(problem: Problem) -> list[Bound]:
    """The chain first, then one bound for each thing that is shared."""
    head, tail = heads(problem), tails(problem)
    problem = least(problem)
    found = [longest_chain(problem), _with_shows(problem, head, tail)]
    for kind, about, capacity, loads in _shared(problem, head, tail):
        if loads:
            breaks = problem.breaks if kind in BY_PEOPLE else ()
            found.append(_load_bound(kind, about, capacity, loads, breaks))
    return found


def longest_chain(problem: Problem) -> Bound:
    """The longest chain of tasks and least waits, demonstrations and cold ovens left out."""
    problem = least(problem)
    reach: dict[str, int] = {}
    came_from: dict[str, str | None] = {}
    for name in problem.order:
        options = [(0, "")] + [(reach[w.before] + w.least, w.before) for w in problem.windows_before[name]]
        start, before = max(options)
        reach[name], came_from[name] = start + problem.task[name].minutes, before or None
    last: str | None = max(reach, key=lambda name: reach[name])
    minutes, chain = reach[last] if last else 0, []
    while last:
        chain.append(last)
        last = came_from[last]
    return Bound(minutes, "chain", "", tuple(reversed(chain)))


def heads(problem: Problem) -> dict[str, int]:
    """Earliest start of each task: chains, its demonstration, a cold oven, what a person fixed, holds
    looked at backwards.

    Holds that contradict one another would raise the heads for ever; one round a task is enough.
    What comes after waits for the shortest way of what is before; looked at backwards, the longest
    way begins first.
    """
    longest = {task.name: longest_minutes(task) for task in problem.tasks}
    problem = least(problem)
    shown = {d.name: problem.after_breaks(d.earliest, d.minutes) + d.minutes for d in problem.demonstrations}
    head = {}
    for task in problem.tasks:
        heat = min(
            (o.heat_up_minutes(task.bake) for o in problem.ovens if task.bake and task.may_go_in(o)),
            default=0,
        )
        head[task.name] = max(heat, shown.get(task.shown_by or "", 0), task.earliest)
    for _ in range(len(problem.tasks) + 1):
        moved = False
        for name in problem.order:
            if problem.breaks and problem.task[name].by_people:
                moved |= _raise(head, name, problem.after_breaks(head[name], problem.task[name].minutes))
            for window in problem.windows_before[name]:
                before = problem.task[window.before]
                moved |= _raise(head, name, head[window.before] + before.minutes + window.least)
                if window.longest is not None:
                    moved |= _raise(head, before.name, head[name] - window.longest - longest[before.name])
        if not moved:
            break
    return head


def _raise(head: dict[str, int], name: str, minutes: int) -> bool:
    if minutes <= head[name]:
        return False
    head[name] = minutes
    return True


def latest_starts(problem: Problem) -> dict[str, int]:
    """Latest start of each task that something fixed limits: itself, what follows it, what it follows.

    Only chains and holds are looked at, so a start after it breaks what is fixed; one before may too.
    """
    longest = {task.name: longest_minutes(task) for task in problem.tasks}
    problem = least(problem)
    due = {t.name: t.latest for t in problem.tasks if t.latest is not None}
    moved = bool(due)
    while moved:
        moved = False
        for group in problem.together:
            for name in group if not due.keys().isdisjoint(group) else ():
                moved |= _lower(due, name, min(due[n] for n in group if n in due))
        for name in reversed(problem.order):
            for window in problem.windows_after[name]:
                minutes = problem.task[name].minutes
                if window.after in due:
                    moved |= _lower(due, name, due[window.after] - window.least - minutes)
                if window.longest is not None and name in due:
                    moved |= _lower(due, window.after, due[name] + longest[name] + window.longest)
        if min(due.values()) < 0:
            break
    return due


def _lower(due: dict[str, int], name: str, minutes: int) -> bool:
    if name in due and due[name] <= minutes:
        return False
    due[name] = minutes
    return True


def far(problem: Problem) -> int:
    """A minute by which every question that has a plan has one that has ended: all one after another."""
    heat = max((o.heat_up_minutes(t.bake) for t in problem.tasks if t.bake for o in problem.ovens), default=0)
    ways = ((0, 3000), (3000, 0))
    change = max((oven.change_minutes(*way) for oven in problem.ovens for way in ways), default=0)
    things = (*problem.tasks, *problem.demonstrations)
    bakes = sum(task.bake is not None for task in problem.tasks)
    work = sum(map(longest_minutes, problem.tasks)) + sum(show.minutes for show in problem.demonstrations)
    waits = sum(window.least for window in problem.windows) + problem.clock_minutes * len(things)
    from_then = max(*(thing.earliest for thing in things), *(each.end for each in problem.breaks), 0)
    return from_then + work + waits + heat + change * bakes


def tails(problem: Problem) -> dict[str, int]:
    """Least minutes from the end of each task to the finish."""
    problem = least(problem)
    tail: dict[str, int] = {}
    for name in reversed(problem.order):
        tail[name] = max(
            (w.least + problem.task[w.after].minutes + tail[w.after] for w in problem.windows_after[name]),
            default=0,
        )
    return tail


def _with_shows(problem: Problem, head: dict[str, int], tail: dict[str, int]) -> Bound:
    """The chain again with demonstrations and cold ovens in front."""
    name = max(head, key=lambda n: head[n] + problem.task[n].minutes + tail[n])
    return Bound(head[name] + problem.task[name].minutes + tail[name], "start", "", (name,))


def _shared(
    problem: Problem, head: dict[str, int], tail: dict[str, int]
) -> Iterator[tuple[str, str, int, list[_Load]]]:
    """Everything that is shared: kind, name, units, the work on it."""

    def loads(tasks: list[Task], units: Callable[[Task], int] = lambda task: 1) -> list[_Load]:
        return [_Load(t.name, head[t.name], t.minutes, units(t), tail[t.name]) for t in tasks if t.minutes]

    shows = _show_loads(problem, tail)
    for bench in problem.benches:
        work = loads([t for t in problem.tasks if t.hands and t.bench == bench.name])
        watched = [_Load(s.name, s.head, s.minutes, bench.cooks, s.tail) for s in shows]
        yield "hands", bench.name, bench.cooks, work + watched
    yield "lecturer", "", 1, loads([t for t in problem.tasks if t.lecturer]) + shows
    yield "assessor", "", 1, loads([t for t in problem.tasks if t.assessor])
    trays = sum(oven.trays for oven in problem.ovens)
    yield (
        "ovens",
        "",
        trays,
        loads([t for t in problem.tasks if t.bake], lambda t: t.bake.trays if t.bake else 0),
    )
    for supply in problem.supplies:
        using = [t for t in problem.tasks if any(name == supply.name for name, _ in t.uses)]
        yield "supply", supply.name, supply.units, loads(using, lambda t, s=supply.name: dict(t.uses)[s])


def _show_loads(problem: Problem, tail: dict[str, int]) -> list[_Load]:
    out = []
    for show in problem.demonstrations:
        after = [t.minutes + tail[t.name] for t in problem.tasks if t.shown_by == show.name]
        out.append(_Load(show.name, show.earliest, show.minutes, 1, max(after, default=0)))
    return out


def _load_bound(
    kind: str, about: str, capacity: int, loads: list[_Load], breaks: tuple[Pause, ...] = ()
) -> Bound:
    """The largest head + work / capacity + tail over all floors of head and tail.

    Work that a break falls into takes so much longer: nobody works in it.
    """
    best, members = 0, ()
    for floor in sorted({load.head for load in loads}):
        left = sorted((x for x in loads if x.head >= floor), key=lambda load: -load.tail)
        work = 0
        for count, load in enumerate(left, 1):
            work += load.minutes * load.units
            end = floor + -(-work // capacity)
            for each in sorted(breaks, key=lambda pause: pause.start):
                if floor < each.end and end > each.start:
                    end += each.end - max(floor, each.start)
            minutes = end + load.tail
            if minutes > best:
                best, members = minutes, tuple(x.name for x in left[:count])
    return Bound(best, kind, about, members)
