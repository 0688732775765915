"""The time of one cook: the steps of a recipe on one pair of hands, waiting filled.

For the recipe page, for judging whether a dish fits a lesson, and as the measure beside
the class's time plan. One cook has one pair of hands and any number of rings and shelves.

How a step takes time
---------------------
A step takes hands for the minutes of its way, then the food stays (in the oven, the
chiller, on the bench) while the hands are free; a step that waits first stays, then takes
hands (cool, then unmould). A step begins when all the steps it comes after have ended, at
least and at most so many minutes later. Steps done ahead are left out: what they give is
there at minute 0.

The serial generation
---------------------
``serial``: take the steps in the order of the longest way to the end, each as soon as what
it needs is done, and put it at the first minute where the hands are free for its whole
work. This is what a good cook does, and it is fast; it does not look at the longest waits.

The exact answer
----------------
``one_cook``: begin with every step as early as its needs and its longest waits allow. Where
two works want the hands at once, one goes first: try both. A branch is dropped when its
bound is no better than the best plan known. The bound is, over every group of works, the
earliest start in the group + all its work + the least time that follows. Up to
``NODE_LIMIT`` trials; beyond that the best plan found is given and ``proved`` is False.

Worked example: paste 12 min, rests 45; custard 10 min, stands 20. One after the other is
87 minutes; with the custard made while the paste rests it is 57, which is also the longest
chain, so nothing is shorter.

Source: critical path and one-machine bounds are textbook; the figures of a recipe are its own.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from curriculum.errors import RuleBroken
from curriculum.recipes.data import RecipeData, StepData

NODE_LIMIT = 20_000


@dataclass(frozen=True, slots=True)
class StepTime:
    """When one step happens, in minutes from the start of the cook."""

    position: int
    starts: int
    hands_start: int
    hands_end: int
    ends: int


@dataclass(frozen=True, slots=True)
class OneCook:
    """One cook's plan. ``minutes`` is the whole, ``bound_minutes`` what nothing can be shorter than.

    ``proved`` says that no shorter plan exists. ``broken`` holds (needs, step, minutes held,
    longest allowed) for every longest wait that no plan of one cook can keep; usually empty.
    """

    minutes: int
    bound_minutes: int
    longest_chain_minutes: int
    chain: tuple[int, ...]
    work_minutes: int
    waiting_minutes: int
    steps: tuple[StepTime, ...]
    proved: bool
    broken: tuple[tuple[int, int, int, int], ...] = ()

    def step(self, position: int) -> StepTime:
        """The time of the step at that position. KeyError when it was left out."""
        for each in self.steps:
            if each.position == position:
                return each
        raise KeyError(position)


@dataclass(frozen=True, slots=True)
class _Task:
    """A step as the sum sees it: hands begin ``offset`` after its start and take ``hands``."""

    position: int
    hands: int
    length: int
    offset: int


@dataclass(frozen=True, slots=True)
class _Problem:
    """Tasks by index and edges: for (i, j) the least minutes from the start of i to that of j."""

    tasks: tuple[_Task, ...]
    edges: Mapping[tuple[int, int], int]


def loop(recipe: RecipeData) -> tuple[int, ...]:
    """Positions of steps that wait for one another in a ring, in order; empty when there is none."""
    needs = {step.position: [after.needs for after in step.after] for step in recipe.steps}
    seen: set[int] = set()
    for first in needs:
        found = _loop_from(first, needs, [], seen)
        if found:
            return found
    return ()


def loop_words(positions: tuple[int, ...]) -> str:
    """A loop named: "Step 3 waits for step 5, which waits for step 3."."""
    first, *rest = positions
    if not rest:
        return f"Step {first} waits for itself."
    tail = ", which waits for ".join(f"step {position}" for position in [*rest, first])
    return f"Step {first} waits for {tail}. Take one of these out."


def longest_chain(recipe: RecipeData, leave_out: frozenset[int] = frozenset()) -> int:
    """Minutes of the longest chain of steps, hands counted as endless. RuleBroken for a loop."""
    problem = _problem(recipe, leave_out, {}, windows=False)
    return _finish(problem, _demand_starts(problem))


def serial(
    recipe: RecipeData, leave_out: frozenset[int] = frozenset(), ways: Mapping[int, str] | None = None
) -> tuple[StepTime, ...]:
    """The serial generation (above): every step at its first free minute. RuleBroken for a loop."""
    problem = _problem(recipe, leave_out, ways or {}, windows=False)
    return _times(problem, _serial_starts(problem))


def one_cook(
    recipe: RecipeData, leave_out: frozenset[int] = frozenset(), ways: Mapping[int, str] | None = None
) -> OneCook:
    """The shortest plan of one cook, without the steps in ``leave_out``.

    ``ways`` names the way of a step ("hand", "machine") where it is not the usual one.
    RuleBroken for steps in a loop. Where the longest waits cannot all be kept, the plan is
    made without them and ``broken`` names those that it breaks.
    """
    free = _problem(recipe, leave_out, ways or {}, windows=False)
    if not free.tasks:
        return OneCook(0, 0, 0, (), 0, 0, (), True)
    earliest = _demand_starts(free)
    kept = _problem(recipe, leave_out, ways or {}, windows=True)
    starts, proved = _search(kept)
    if starts is None:
        starts, proved = _search(free)
    minutes = _finish(free, starts)
    return OneCook(
        minutes=minutes,
        bound_minutes=minutes if proved else _bound(free, earliest),
        longest_chain_minutes=_finish(free, earliest),
        chain=_chain(free, earliest),
        work_minutes=sum(task.hands for task in free.tasks),
        waiting_minutes=sum(task.length - task.hands for task in free.tasks),
        steps=_times(free, starts),
        proved=proved,
        broken=_broken(recipe, free, starts),
    )


def _loop_from(
    position: int, needs: Mapping[int, list[int]], path: list[int], seen: set[int]
) -> tuple[int, ...]:
    if position in path:
        return tuple(path[path.index(position) :])
    if position in seen:
        return ()
    seen.add(position)
    for needed in needs.get(position, []):
        found = _loop_from(needed, needs, [*path, position], seen)
        if found:
            return found
    return ()


def _problem(
    recipe: RecipeData, leave_out: frozenset[int], ways: Mapping[int, str], *, windows: bool
) -> _Problem:
    steps = [step for step in recipe.steps if step.position not in leave_out]
    tasks = tuple(_task(step, ways.get(step.position)) for step in steps)
    index = {step.position: number for number, step in enumerate(steps)}
    edges: dict[tuple[int, int], int] = {}
    for step in steps:
        for after in step.after:
            if after.needs not in index:
                continue
            first, second = index[after.needs], index[step.position]
            edges[first, second] = tasks[first].length + after.least_minutes
            if windows and after.longest_minutes is not None:
                edges[second, first] = -(tasks[first].length + after.longest_minutes)
    return _Problem(tasks, edges)


def _task(step: StepData, way: str | None) -> _Task:
    hands = step.active_minutes
    if way is not None:
        hands = next(each.active_minutes for each in step.ways if each.name == way)
    waiting = step.waiting_minutes
    return _Task(step.position, hands, hands + waiting, waiting if step.wait_first else 0)


def _starts(problem: _Problem, edges: Mapping[tuple[int, int], int]) -> list[int] | None:
    """Earliest starts under ``edges``; None when they cannot all be kept (a loop, a wait too short)."""
    starts = [0] * len(problem.tasks)
    for _ in range(len(starts) + 1):
        moved = False
        for (first, second), minutes in edges.items():
            if starts[first] + minutes > starts[second]:
                starts[second] = starts[first] + minutes
                moved = True
        if not moved:
            return starts
    return None


def _demand_starts(problem: _Problem) -> list[int]:
    starts = _starts(problem, problem.edges)
    if starts is None:
        raise RuleBroken("steps_in_a_loop", "Steps wait for one another in a ring, so none can begin.")
    return starts


def _finish(problem: _Problem, starts: list[int]) -> int:
    return max((start + task.length for start, task in zip(starts, problem.tasks, strict=True)), default=0)


def _tails(problem: _Problem, edges: Mapping[tuple[int, int], int]) -> list[int]:
    """The least minutes from the start of each step to the end of everything."""
    tails = [task.length for task in problem.tasks]
    for _ in tails:
        for (first, second), minutes in edges.items():
            if minutes >= 0:
                tails[first] = max(tails[first], minutes + tails[second])
    return tails


def _serial_starts(problem: _Problem) -> list[int]:
    _demand_starts(problem)
    tails = _tails(problem, problem.edges)
    before = {number: [] for number in range(len(problem.tasks))}
    for (first, second), minutes in problem.edges.items():
        before[second].append((first, minutes))
    starts: dict[int, int] = {}
    busy: list[tuple[int, int]] = []
    while len(starts) < len(problem.tasks):
        ready = [n for n in before if n not in starts and all(first in starts for first, _ in before[n])]
        chosen = max(ready, key=lambda n: (tails[n], -n))
        task = problem.tasks[chosen]
        least = max((starts[first] + minutes for first, minutes in before[chosen]), default=0)
        begin = _first_free(busy, least + task.offset, task.hands)
        busy.append((begin, begin + task.hands))
        starts[chosen] = begin - task.offset
    return [starts[number] for number in range(len(problem.tasks))]


def _first_free(busy: list[tuple[int, int]], least: int, minutes: int) -> int:
    """The first minute from ``least`` on where the hands are free for ``minutes``."""
    if minutes == 0:
        return least
    begin = least
    for start, end in sorted(busy):
        if start < begin + minutes and begin < end:
            begin = end
    return begin


def _search(problem: _Problem) -> tuple[list[int] | None, bool]:
    """(best starts or None when the waits cannot be kept, proved best)."""
    best: list[int] | None = None
    best_finish = _worst(problem)
    open_nodes: list[dict[tuple[int, int], int]] = [dict(problem.edges)]
    trials = 0
    while open_nodes and trials < NODE_LIMIT:
        trials += 1
        edges = open_nodes.pop()
        starts = _starts(problem, edges)
        if starts is None or _bound(problem, starts, edges) >= best_finish:
            continue
        clash = _first_clash(problem, starts)
        if clash is None:
            best, best_finish = starts, _finish(problem, starts)
            continue
        open_nodes.extend(_branches(problem, edges, starts, clash))
    return best, not open_nodes


def _worst(problem: _Problem) -> int:
    """More minutes than any plan takes: everything one after another, with every least wait."""
    least = sum(minutes for minutes in problem.edges.values() if minutes > 0)
    return sum(task.length for task in problem.tasks) + least + 1


def _bound(problem: _Problem, starts: list[int], edges: Mapping[tuple[int, int], int] | None = None) -> int:
    """Minutes that no plan under these edges can be shorter than."""
    tails = _tails(problem, problem.edges if edges is None else edges)
    works = sorted(
        (start + task.offset, task.hands, tail - task.offset - task.hands)
        for start, task, tail in zip(starts, problem.tasks, tails, strict=True)
        if task.hands
    )
    bound = _finish(problem, starts)
    for follows in {work[2] for work in works}:
        hands = 0
        for begins, minutes, after in reversed(works):
            if after >= follows:
                hands += minutes
                bound = max(bound, begins + hands + follows)
    return bound


def _first_clash(problem: _Problem, starts: list[int]) -> tuple[int, int] | None:
    """The first two works in time that want the hands at once."""
    works = sorted(
        (start + task.offset, number)
        for number, (start, task) in enumerate(zip(starts, problem.tasks, strict=True))
        if task.hands
    )
    last: tuple[int, int] | None = None
    for begins, number in works:
        if last is not None and begins < last[0]:
            return last[1], number
        last = (begins + problem.tasks[number].hands, number)
    return None


def _branches(
    problem: _Problem, edges: dict[tuple[int, int], int], starts: list[int], clash: tuple[int, int]
) -> list[dict[tuple[int, int], int]]:
    """Both orders of two works, the more hopeful one last, so that it is tried first."""
    made = []
    for first, second in (clash, clash[::-1]):
        gap = problem.tasks[first].offset + problem.tasks[first].hands - problem.tasks[second].offset
        branch = dict(edges)
        branch[first, second] = max(gap, edges.get((first, second), gap))
        made.append(branch)
    tails = _tails(problem, edges)
    first, second = clash
    hopeful_first = starts[first] - tails[first] <= starts[second] - tails[second]
    return made[::-1] if hopeful_first else made


def _chain(problem: _Problem, starts: list[int]) -> tuple[int, ...]:
    """Positions of the steps of one longest chain, in order."""
    ends = [start + task.length for start, task in zip(starts, problem.tasks, strict=True)]
    number = ends.index(max(ends))
    chain = [number]
    while starts[number] > 0:
        number = next(
            first
            for (first, second), minutes in problem.edges.items()
            if second == number and starts[first] + minutes == starts[number]
        )
        chain.append(number)
    return tuple(problem.tasks[each].position for each in reversed(chain))


def _times(problem: _Problem, starts: list[int]) -> tuple[StepTime, ...]:
    made = []
    for start, task in zip(starts, problem.tasks, strict=True):
        hands = start + task.offset
        made.append(StepTime(task.position, start, hands, hands + task.hands, start + task.length))
    return tuple(made)


def _broken(
    recipe: RecipeData, problem: _Problem, starts: list[int]
) -> tuple[tuple[int, int, int, int], ...]:
    times = {each.position: each for each in _times(problem, starts)}
    made = []
    for step in recipe.steps:
        for after in step.after:
            if step.position not in times or after.needs not in times or after.longest_minutes is None:
                continue
            held = times[step.position].starts - times[after.needs].ends
            if held > after.longest_minutes:
                made.append((after.needs, step.position, held, after.longest_minutes))
    return tuple(made)
