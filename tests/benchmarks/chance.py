"""Measures two thousand runs of class files; prints one JSON line for each.

    python -m tests.benchmarks.chance FOLDER [--runs 2000] [--only B30]

``seconds`` is one page's worth: the runs, and the runs again for every reserve. ``as_planned``
says that without spread every run ends when the plan does. ``ratio`` is seconds over the
machine's fixed loop, for comparing machines.
"""

import argparse
import json
from dataclasses import replace
from pathlib import Path
from time import perf_counter

from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.chance import GROUPS, Pace, run_classes
from kitchen.timeplan.reserves import reserves
from tests.benchmarks.machine import fixed_loop
from tests.builders.timeplan import problem_of_class


def main() -> None:
    """One line a class."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("folder", type=Path)
    said.add_argument("--runs", type=int, default=2000)
    said.add_argument("--only", action="append", default=[])
    asked = said.parse_args()
    machine = fixed_loop()
    for path in sorted(asked.folder.glob("*.json")):
        if not asked.only or any(mark in path.stem for mark in asked.only):
            line = measure(path, asked.runs)
            line["ratio"] = round(line["seconds"] / machine, 2)
            print(json.dumps(line | {"machine": machine}), flush=True)


def measure(path: Path, runs: int) -> dict[str, object]:
    """The figures of one class, given ten minutes more than its plan."""
    problem = problem_of_class(json.loads(path.read_text("utf-8")))
    answer = plan_by_hand(problem, nudges=4)
    finish = answer.finish(problem)
    problem = replace(problem, usable_minutes=finish + 10)
    plain = run_classes(problem, answer, Pace(), runs=2)
    began = perf_counter()
    chance = run_classes(problem, answer, GROUPS["practised"], runs=runs)
    alone = perf_counter() - began
    found = reserves(problem, answer, GROUPS["practised"], runs=runs)
    return {
        "name": path.stem,
        "benches": len(problem.benches),
        "runs": runs,
        "as_planned": plain.finish == (finish,) * 3 and not plain.queues,
        "in_time": round(chance.in_time, 3),
        "best_reserve": found[0].code if found else None,
        "runs_seconds": round(alone, 3),
        "seconds": round(perf_counter() - began, 3),
    }


if __name__ == "__main__":
    main()
