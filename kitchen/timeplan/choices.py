"""Steps that may be done in several ways: what is chosen together, and a question with its choices made.

For the check, the bounds, the rule by hand and the model. A task is as its usual way says
(number 0); ``Task.ways`` are the others (from 1). An answer names for each such task the
number it takes, none is the usual one. Benches that begin a step together do it one way.

``settled`` makes of a question and its choices a question without any: whatever comes after
the choice reads that. ``least`` is the other end: each task with the least of everything that
any of its ways needs, so that what is proved of it holds whichever way is taken.

Worked example: two mixers, six benches, 14 minutes at a mixer or 18 by hand. All at the mixers
end after 42 minutes, all by hand after 18; two at the mixers and four by hand after 18 as well.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from kitchen.timeplan.problem import Problem, Task
from kitchen.timeplan.ways import Way


def choosing(problem: Problem) -> tuple[Task, ...]:
    """The tasks that may be done in more than one way."""
    return tuple(task for task in problem.tasks if task.ways)


def usual_way(task: Task) -> Way:
    """Its usual way."""
    return Way(task.minutes, task.uses, task.lecturer, "usual")


def ways_of_task(task: Task) -> tuple[Way, ...]:
    """All its ways, the usual one first."""
    return (usual_way(task), *task.ways)


def longest_minutes(task: Task) -> int:
    """Its minutes in the way that takes longest."""
    return max(way.minutes for way in ways_of_task(task)) if task.ways else task.minutes


def done(task: Task, number: int) -> Task:
    """The task done that way and no other."""
    way = ways_of_task(task)[number]
    return replace(task, minutes=way.minutes, uses=way.uses, lecturer=way.lecturer, ways=())


def settled(problem: Problem, ways: Mapping[str, int]) -> Problem:
    """The question with these choices made; the same question where nothing is to be chosen."""
    if not choosing(problem):
        return problem
    tasks = tuple(done(t, ways.get(t.name, 0)) if t.ways else t for t in problem.tasks)
    return replace(problem, tasks=tasks)


def least(problem: Problem) -> Problem:
    """Each task with the least of everything that any of its ways needs."""
    if not choosing(problem):
        return problem
    return replace(problem, tasks=tuple(_least(t) if t.ways else t for t in problem.tasks))


def _least(task: Task) -> Task:
    ways = ways_of_task(task)
    shared = set.intersection(*({name for name, _ in way.uses} for way in ways))
    uses = tuple((name, min(dict(way.uses)[name] for way in ways)) for name in sorted(shared))
    lecturer = all(way.lecturer for way in ways)
    return replace(task, minutes=min(w.minutes for w in ways), uses=uses, lecturer=lecturer, ways=())


def every_way(task: Task, change: Callable[[Way], Way]) -> Task:
    """The task with the same change made to each of its ways."""
    usual = change(usual_way(task))
    others = tuple(change(way) for way in task.ways)
    return replace(task, minutes=usual.minutes, uses=usual.uses, lecturer=usual.lecturer, ways=others)


def chosen_together(problem: Problem) -> Iterator[tuple[str, ...]]:
    """Names of tasks that take one choice: those of a wave that have the same ways, else one alone."""
    left = {task.name: task for task in choosing(problem)}
    for group in problem.together:
        alike: dict[tuple[str, ...], list[str]] = {}
        for name in group:
            if name in left:
                names = tuple(way.name for way in left.pop(name).ways)
                alike.setdefault(names, []).append(name)
        yield from (tuple(names) for names in alike.values())
    yield from ((name,) for name in left)


def first_choices(problem: Problem) -> Iterator[dict[str, int]]:
    """Choices worth trying by rule: all the usual way; all the other way; machines for the first who fit.

    ValueError never: what is yielded takes only ways that there are.
    """
    yield {}
    if not choosing(problem):
        return
    groups = list(chosen_together(problem))
    yield {name: 1 for names in groups for name in names}
    units = {supply.name: supply.units for supply in problem.supplies}
    taken: dict[tuple[int | None, str], int] = {}
    mixed: dict[str, int] = {}
    for names in groups:
        tasks = [problem.task[name] for name in names]
        wanted = [(task.step, use, count) for task in tasks for use, count in task.uses]
        for step, use, count in wanted:
            taken[step, use] = taken.get((step, use), 0) + count
        if any(taken[step, use] > units[use] for step, use, _ in wanted):
            mixed |= dict.fromkeys(names, 1)
    yield mixed
