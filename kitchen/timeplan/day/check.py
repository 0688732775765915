"""The check of an answer while the class runs: the past is fixed, the rest keeps every rule.

For every re-plan, whoever made it. It knows neither the repair nor the solver. What has
begun may have broken any rule in reality; it is checked only against being moved. What is
still to come is checked against the past and against itself. A hold that is too long is
said (``too_late``), since on the day it may be the least evil; every other break is refused.

Worked example: an oven holds two trays and both went in at minute 40 for 20 minutes. A third
that is to go in at minute 55 breaks "trays"; had all three gone in already, nothing is said.
"""

from collections.abc import Iterator
from itertools import combinations

from kitchen.timeplan.answer import Answer, Break, Past, check, ready_at, two_bakes
from kitchen.timeplan.problem import Oven, Problem, Task

SOFT = "too_late"


def check_from(problem: Problem, answer: Answer, past: Past) -> list[Break]:
    """Every rule that the answer breaks from ``past.now`` on, and every move of what had begun."""
    missing = [b for b in check(problem, answer) if b.code in ("no_start", "no_oven")]
    if missing:
        return missing
    rules = (_moved, _too_early, _order, _breaks, _people, _supplies, _ovens)
    return [found for rule in rules for found in rule(problem, answer, past)]


def hard(breaks: list[Break]) -> list[Break]:
    """The breaks that make a plan impossible: all but holds that are too long."""
    return [found for found in breaks if found.code != SOFT]


def _moved(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    for name in sorted(past.fixed):
        if answer.starts[name] != past.was.starts[name]:
            yield Break("moved", f"{_called(problem, name)} has begun and is moved all the same.")
        elif answer.ovens.get(name) != past.was.ovens.get(name):
            yield Break("moved", f"{_called(problem, name)} is in an oven and is moved to another.")


def _too_early(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    for name, start in answer.starts.items():
        if name not in past.fixed and start < past.now:
            yield Break("in_the_past", f"{_called(problem, name)} would begin before now.")


def _order(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    """Windows and demonstrations, where the later of the two is still to come."""
    for window in problem.windows:
        if window.after in past.fixed:
            continue
        gap = answer.starts[window.after] - answer.starts[window.before] - problem.task[window.before].minutes
        before, after = _called(problem, window.before), _called(problem, window.after)
        if gap < window.least:
            yield Break("too_soon", f"{after} follows {before} after {gap} min; at least {window.least} min.")
        elif window.longest is not None and gap > window.longest:
            yield Break(SOFT, f"{after} follows {before} after {gap} min; at most {window.longest} min.")
    ends = {d.name: answer.starts[d.name] + d.minutes for d in problem.demonstrations}
    for task in problem.tasks:
        shown = task.shown_by
        if shown and task.name not in past.fixed and answer.starts[task.name] < ends[shown]:
            yield Break("not_shown", f"{task.called} begins before its demonstration has ended.")


def _breaks(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    for thing in (*(t for t in problem.tasks if t.by_people), *problem.demonstrations):
        start = answer.starts[thing.name]
        if thing.name not in past.fixed and problem.after_breaks(start, thing.minutes) != start:
            yield Break("break", f"{_called(problem, thing.name)} would be done in the break.")


Span = tuple[int, int, int, bool]


def _span(answer: Answer, past: Past, name: str, minutes: int, units: int = 1) -> Span:
    """Start, end, units, and whether it is still to come."""
    start = answer.starts[name]
    return start, start + minutes, units, name not in past.fixed


def _over(spans: list[Span], most: int) -> int | None:
    """The first minute at which something still to come stands where there is no room; None if none."""
    for start, end, _, coming in sorted(spans):
        if end <= start:
            continue
        at_once = [s for s in spans if s[0] <= start < s[1]]
        if sum(s[2] for s in at_once) > most and (coming or any(s[3] for s in at_once)):
            return start
    return None


def _people(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    for bench in problem.benches:
        work = [
            _span(answer, past, t.name, t.minutes) for t in problem.tasks if t.hands and t.bench == bench.name
        ]
        shows = [_span(answer, past, d.name, d.minutes, bench.cooks) for d in problem.demonstrations]
        minute = _over(work + shows, bench.cooks)
        if minute is not None:
            yield Break("hands", f"Bench {bench.name} needs more hands than it has at minute {minute}.")
    shows = [_span(answer, past, d.name, d.minutes) for d in problem.demonstrations]
    lecturer = [_span(answer, past, t.name, t.minutes) for t in problem.tasks if t.lecturer]
    assessor = [_span(answer, past, t.name, t.minutes) for t in problem.tasks if t.assessor]
    for who, spans in (("lecturer", lecturer + shows), ("assessor", assessor)):
        minute = _over(spans, 1)
        if minute is not None:
            yield Break(who, f"The {who} is needed in two places at minute {minute}.")


def _supplies(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    for supply in problem.supplies:
        spans = [
            _span(answer, past, t.name, t.minutes, units)
            for t in problem.tasks
            for name, units in t.uses
            if name == supply.name
        ]
        minute = _over(spans, supply.units)
        if minute is not None:
            words = supply.words or supply.name
            yield Break("supply", f"At minute {minute} the class needs more than {supply.units} {words}.")


def _ovens(problem: Problem, answer: Answer, past: Past) -> Iterator[Break]:
    for oven in problem.ovens:
        inside = [t for t in problem.tasks if t.bake is not None and answer.ovens[t.name] == oven.name]
        for task in inside:
            if task.name not in past.fixed:
                yield from _one_bake(oven, task, answer, past)
        trays = [_span(answer, past, t.name, t.minutes, t.bake.trays) for t in inside if t.bake]
        minute = _over(trays, oven.trays)
        if minute is not None:
            yield Break("trays", f"Oven {oven.name} holds {oven.trays} trays; more at minute {minute}.")
        for first, second in combinations(inside, 2):
            if not {first.name, second.name} <= past.fixed:
                yield from two_bakes(oven, first, second, answer)


def _one_bake(oven: Oven, task: Task, answer: Answer, past: Past) -> Iterator[Break]:
    if oven.name in past.out:
        yield Break("oven_failed", f"{task.called} would go into oven {oven.name}, which has failed.")
    elif task.bake is None or not oven.takes(task.bake):
        yield Break("oven_range", f"Oven {oven.name} does not take {task.called}.")
    elif answer.starts[task.name] < ready_at(past, oven, task.bake):
        ready = ready_at(past, oven, task.bake)
        yield Break("cold_oven", f"{task.called} would go in before oven {oven.name} is hot, minute {ready}.")


def _called(problem: Problem, name: str) -> str:
    task = problem.task.get(name)
    return task.called if task else name
