"""Ovens that a class can remember: each bench keeps one, and its number where that is possible.

For ``solver.py``: the times of an answer stay, only who bakes where is chosen again. The
rule: bench by bench, first the oven of its own place in the row, then the others in order,
whichever takes all bakes of the bench; where none does, each bake finds its own. When the
rule does not come out, the answer stays as it was.
"""

from dataclasses import replace

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Oven, Problem, Task
from kitchen.timeplan.taken import Taken


def tidied(problem: Problem, answer: Answer) -> Answer:
    """The same starts with ovens that stay with their bench."""
    bakes = [t for t in problem.tasks if t.bake is not None]
    if not bakes:
        return answer
    taken = Taken(problem, {d.name: answer.starts[d.name] for d in problem.demonstrations})
    by_bench: dict[str | None, list[Task]] = {}
    for task in sorted(bakes, key=lambda t: answer.starts[t.name]):
        by_bench.setdefault(task.bench, []).append(task)
    place = {bench.name: i for i, bench in enumerate(problem.benches)}
    for bench, tasks in sorted(by_bench.items(), key=lambda item: place.get(item[0] or "", 0)):
        if not _settle(taken, tasks, _ovens_from(problem, place.get(bench or "", 0)), answer):
            return answer
    return replace(answer, ovens={name: oven.name for name, oven in taken.oven_of.items()})


def _ovens_from(problem: Problem, place: int) -> list[Oven]:
    """All ovens, the bench's own first."""
    own = place % len(problem.ovens)
    return [problem.ovens[own], *problem.ovens[:own], *problem.ovens[own + 1 :]]


def _settle(taken: Taken, tasks: list[Task], ovens: list[Oven], answer: Answer) -> bool:
    """Put all bakes of a bench into one oven, or each into the first that takes it."""
    for oven in ovens:
        if _put_all(taken, [(task, [oven]) for task in tasks], answer):
            return True
    return _put_all(taken, [(task, ovens) for task in tasks], answer)


def _put_all(taken: Taken, wanted: list[tuple[Task, list[Oven]]], answer: Answer) -> bool:
    """Put every bake into the first oven of its list that takes it; all or none."""
    put: list[Task] = []
    for task, ovens in wanted:
        start = answer.starts[task.name]
        found = next((o for o in ovens if task.may_go_in(o) and taken.takes(o, task.bake, start)), None)
        if found is None:
            for other in put:
                taken.put(other, answer.starts[other.name], -1)
            return False
        taken.oven_of[task.name] = found
        taken.put(task, start)
        put.append(task)
    return True
