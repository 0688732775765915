"""Tiny classes against trying everything; prints one JSON line for each kind of them.

    python -m tests.benchmarks.tiny [--count 300]

Kinds: plain; with a break; with other ways to do a step; with both.

``equal`` counts classes whose finish is the shortest there is, ``proved`` those whose bound
is as well; ``impossible`` those of which neither we nor trying found a plan. ``above`` (a
bound over the shortest finish) and ``illegal`` must be 0.
"""

import argparse
import json
from collections.abc import Callable
from time import perf_counter

from kitchen.timeplan.answer import check
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import NoPlan, solve
from tests.benchmarks.machine import fixed_loop
from tests.builders.timeplan import (
    shortest_by_trying,
    tiny_class,
    tiny_class_with_a_break,
    tiny_class_with_both,
    tiny_class_with_ways,
)

KINDS = {
    "plain": tiny_class,
    "break": tiny_class_with_a_break,
    "ways": tiny_class_with_ways,
    "both": tiny_class_with_both,
}

#: No tiny class is longer than this, however it is laid out.
GENEROUS = 16


def no_plan_at_all(problem: Problem) -> bool:
    """Whether trying every start up to a generous minute finds no plan either."""
    try:
        shortest_by_trying(problem, GENEROUS)
    except StopIteration:
        return True
    return False


def main() -> None:
    """All tiny classes, one line a kind."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--count", type=int, default=300)
    asked = said.parse_args()
    for kind, tiny in KINDS.items():
        print(json.dumps({"kind": kind} | figures_of(tiny, asked.count)), flush=True)


def figures_of(tiny: Callable[[int], Problem], count: int) -> dict[str, float]:
    """What came of so many tiny classes of one kind."""
    began = perf_counter()
    figures = {"classes": count, "equal": 0, "proved": 0, "above": 0, "illegal": 0, "impossible": 0}
    for seed in range(count):
        problem = tiny(seed)
        try:
            solved = solve(problem, Effort(work=0.4, holding=False))
        except NoPlan:
            figures["impossible"] += no_plan_at_all(problem)
            continue
        shortest = shortest_by_trying(problem, solved.finish_minutes)
        figures["equal"] += solved.finish_minutes == shortest
        figures["proved"] += solved.bound_minutes == shortest
        figures["above"] += solved.bound_minutes > shortest
        figures["illegal"] += bool(check(problem, solved.answer))
    machine = fixed_loop()
    seconds = round(perf_counter() - began, 1)
    return figures | {"seconds": seconds, "machine": machine}


if __name__ == "__main__":
    main()
