"""Benches that are alike in everything: which they are, and an answer put into their order.

For ``model.py``: exchanging such benches loses no plan, so that the solver looks at one order.
"""

from collections import defaultdict
from typing import Any

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Problem


def twin_benches(problem: Problem) -> list[list[list[str]]]:
    """Groups of benches alike in all tasks and windows: task names by bench, in one order.

    Waves tie benches to one another, so a question with waves has no twins.
    """
    if problem.together or len(problem.benches) < 2:
        return []
    names = {b.name: [n for n in problem.order if problem.task[n].bench == b.name] for b in problem.benches}
    alike: dict[tuple[Any, ...], list[list[str]]] = defaultdict(list)
    for bench in problem.benches:
        if names[bench.name]:
            alike[_likeness(problem, bench.cooks, names[bench.name])].append(names[bench.name])
    return [group for group in alike.values() if len(group) > 1]


def _likeness(problem: Problem, cooks: int, names: list[str]) -> tuple[Any, ...]:
    place = {name: i for i, name in enumerate(names)}
    tasks = []
    for name in names:
        t = problem.task[name]
        marks = (t.minutes, t.hands, t.lecturer, t.assessor, t.bake, t.uses, t.shown_by)
        fixed = (t.ways, t.earliest, t.latest, t.only_ovens)
        tasks.append((*marks, *fixed, name in problem.on_the_clock))
    windows = []
    for name in names:
        for w in problem.windows_after[name]:
            windows.append((place[name], place.get(w.after, w.after), w.least, w.longest))
        outside = (w for w in problem.windows_before[name] if w.before not in place)
        windows += [(w.before, place[name], w.least, w.longest) for w in outside]
    return cooks, tuple(tasks), tuple(windows)


def shut_bake(problem: Problem, names: list[str]) -> str | None:
    """The one bake of a bench, where it is behind a shut door; None for benches of several bakes.

    With two dishes to bake, loads of the one say little of the other: ordering such benches by
    a shut bake cost the largest menus fifteen minutes of bound.
    """
    bakes = [(name, bake) for name in names if (bake := problem.task[name].bake) is not None]
    return bakes[0][0] if len(bakes) == 1 and bakes[0][1].alone else None


def ordering(problem: Problem, names: list[str]) -> str:
    """The task that puts like benches in order: their shut bake, else their last."""
    return shut_bake(problem, names) or names[-1]


def sorted_by_twins(problem: Problem, answer: Answer) -> Answer:
    """The same answer with like benches exchanged so that they end in order."""
    starts, ovens, ways = dict(answer.starts), dict(answer.ovens), dict(answer.ways)
    for twins in twin_benches(problem):
        by_end = sorted(twins, key=lambda names: answer.starts[ordering(problem, names)])
        for target, source in zip(twins, by_end, strict=True):
            for here, there in zip(target, source, strict=True):
                starts[here] = answer.starts[there]
                if problem.task[here].ways:
                    ways[here] = answer.ways.get(there, 0)
                if there in answer.ovens:
                    ovens[here] = answer.ovens[there]
    return Answer(starts, ovens, ways)
