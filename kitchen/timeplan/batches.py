"""Bakes behind a shut door as loads: what one pool of trays forgets about ovens.

For ``solver.py``, beside the pooled model. Trays that share a shut oven go in and come out
together, and nobody opens it between. So of the benches that are alike, put in the order of
their bakes, each either goes in with the one before it or begins a load of its own: a load
has no more trays than an oven, and no more loads are in at once than there are ovens.
Nothing of this forbids a plan that real ovens allow.

Worked example: seven choux of 25 minutes, two ovens of three trays. In one pool the seventh
may follow the first as soon as that one is out; as loads of 3, 3 and 1 the third load waits
for a whole oven.

``ovens_for`` is the way back: starts without ovens are given ovens, where that can be done.
"""

from itertools import pairwise

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.model import Built
from kitchen.timeplan.problem import Bake, Oven, Problem
from kitchen.timeplan.twins import shut_bake, twin_benches


def add_loads(built: Built) -> None:
    """Loads of every shut bake that several like benches have."""
    problem = built.problem
    for twins in twin_benches(problem):
        names = [name for bench in twins if (name := shut_bake(problem, bench)) is not None]
        if len(names) > 1:
            _loads(built, names)


def _loads(built: Built, names: list[str]) -> None:
    model, start = built.model, built.start
    task = built.problem.task[names[0]]
    bake = task.bake
    assert bake is not None
    ovens = [oven for oven in built.problem.ovens if task.may_go_in(oven)]
    in_a_load = max(oven.trays // bake.trays for oven in ovens)
    again = bake.minutes + min(oven.between_minutes(bake, bake) for oven in ovens)
    begins = [model.new_bool_var(f"{name} begins a load") for name in names]
    model.add(begins[0] == 1)
    for (before, after), new in zip(pairwise(names), begins[1:], strict=True):
        model.add(start[before] <= start[after])
        model.add(start[before] == start[after]).only_enforce_if(~new)
    for first in range(len(names) - in_a_load):
        model.add_bool_or(begins[first + 1 : first + in_a_load + 1])
    loads = [
        model.new_optional_fixed_size_interval_var(start[name], again, new, f"load of {name}")
        for name, new in zip(names, begins, strict=True)
    ]
    model.add_cumulative(loads, [1] * len(loads), len(ovens))


def ovens_for(problem: Problem, answer: Answer) -> Answer | None:
    """The answer's starts with an oven for every bake; None when no oven is free for one of them.

    Bake by bake in order of time: an oven that holds its load, else the one that was free last.
    """
    inside: dict[str, list[tuple[int, int, Bake]]] = {oven.name: [] for oven in problem.ovens}
    ovens: dict[str, str] = {}
    bakes = [(task, task.bake) for task in problem.tasks if task.bake is not None]
    for task, bake in sorted(bakes, key=lambda each: (answer.starts[each[0].name], each[0].name)):
        start = answer.starts[task.name]
        may = [oven for oven in problem.ovens if task.may_go_in(oven)]
        ranks = [(_rank(oven, inside[oven.name], start, bake), oven.name) for oven in may]
        free = [(rank, name) for rank, name in ranks if rank is not None]
        if not free:
            return None
        chosen = ovens[task.name] = max(free)[1]
        inside[chosen].append((start, start + bake.minutes, bake))
    found = Answer(answer.starts, ovens, answer.ways)
    return None if check(problem, found) else found


def _rank(oven: Oven, inside: list[tuple[int, int, Bake]], start: int, bake: Bake) -> tuple[int, int] | None:
    """How well a bake goes into an oven that takes it; None while it may not.

    (2, 0) with a load, (1, end) after one, (0, 0) into a cold oven.
    """
    if start < oven.heat_up_minutes(bake):
        return None
    now = [each for each in inside if each[1] > start]
    if sum(each[2].trays for each in now) + bake.trays > oven.trays:
        return None
    for begun, _, other in now:
        same = (other.begins_at, other.heat) == (bake.begins_at, bake.heat)
        shut = other.alone or bake.alone
        if not same or (shut and not (begun == start and other.stays == bake.stays)):
            return None
    for _, end, other in inside:
        if end <= start and start - end < oven.between_minutes(other, bake):
            return None
    if now:
        return (2, 0)
    return (1, max(end for _, end, _ in inside)) if inside else (0, 0)
