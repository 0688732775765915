"""Measures the time plan on class files; prints one JSON line for each.

    python -m tests.benchmarks.timeplan FOLDER [--seconds 10] [--only B12 --only B16]

FOLDER holds class files (``*.json``) and may hold ``reference.csv`` with the finish of first
come first served. ``ratio_fcfs`` is our finish over that; it breaks holds that ours keeps.
``ratio_rule`` is our finish over our own rule's, demonstrations placed as well as it can.
``holding_ratio`` is the holding after the second search over that after the first. The
bound never sees a reference. ``gap`` is a share of the bound.
"""

import argparse
import csv
import json
from pathlib import Path

from kitchen.timeplan.answer import check
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import solve
from tests.benchmarks.machine import fixed_loop
from tests.builders.timeplan import problem_of_class


def main() -> None:
    """One line a class."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("folder", type=Path)
    said.add_argument("--seconds", type=float, default=10.0)
    said.add_argument("--only", action="append", default=[])
    asked = said.parse_args()
    machine = fixed_loop()
    reference = references(asked.folder / "reference.csv")
    for path in sorted(asked.folder.glob("*.json")):
        if asked.only and not any(mark in path.stem for mark in asked.only):
            continue
        problem = problem_of_class(json.loads(path.read_text("utf-8")))
        line = measure(path.stem, problem, asked.seconds, reference.get(path.stem, {}))
        print(json.dumps(line | {"machine": machine}), flush=True)


def references(path: Path) -> dict[str, dict[str, str]]:
    """Rows of the reference by name; empty without the file."""
    if not path.exists():
        return {}
    with path.open(encoding="utf-8") as file:
        return {row["name"]: row for row in csv.DictReader(file)}


def measure(name: str, problem: Problem, seconds: float, known: dict[str, str]) -> dict[str, object]:
    """The figures of one class."""
    solved = solve(problem, Effort(seconds=seconds))
    finish, bound = solved.finish_minutes, solved.bound_minutes
    try:
        rule = plan_by_hand(problem).finish(problem)
    except NoPlanByHand:
        rule = None
    first_come = int(known["fcfs_finish"]) if known else None
    before = solved.holding_before
    return {
        "name": name,
        "benches": len(problem.benches),
        "violations": len(check(problem, solved.answer)),
        "status": solved.status,
        "finish": finish,
        "bound": bound,
        "gap": round((finish - bound) / bound, 4),
        "first_seconds": round(solved.first_seconds, 3),
        "seconds": round(solved.seconds, 2),
        "ratio_fcfs": round(finish / first_come, 3) if first_come else None,
        "ratio_rule": round(finish / rule, 3) if rule else None,
        "holding_ratio": round(solved.holding_after / before, 3) if before else None,
    }


if __name__ == "__main__":
    main()
