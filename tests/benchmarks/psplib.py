"""Measures the time plan's model and solver on PSPLIB files; prints one JSON line for each.

    python -m tests.benchmarks.psplib FOLDER OPTIMA.csv [--seconds 10] [--every 10]

FOLDER holds single-mode ``.sm`` files; OPTIMA.csv has the columns problem, optimum and is
read only after all answers are written. The last line counts instances, how many are equal
to the published optimum, proved by us, and below it (which would be an error of ours).
"""

import argparse
import csv
import json
from pathlib import Path

from kitchen.timeplan.answer import check
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.solver import Solved, solve
from tests.builders.timeplan import problem_of_psplib


def main() -> None:
    """One line an instance, then the count."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("folder", type=Path)
    said.add_argument("optima", type=Path)
    said.add_argument("--seconds", type=float, default=10.0)
    said.add_argument("--every", type=int, default=1)
    asked = said.parse_args()
    answers = {}
    for path in sorted(asked.folder.glob("*.sm"))[:: asked.every]:
        problem = problem_of_psplib(path.read_text("utf-8", errors="replace"))
        solved = solve(problem, Effort(seconds=asked.seconds, holding=False))
        answers[path.name] = solved
        line = {"name": path.name, "violations": len(check(problem, solved.answer)), "status": solved.status}
        figures = {"finish": solved.finish_minutes, "bound": solved.bound_minutes}
        print(json.dumps(line | figures | {"seconds": round(solved.seconds, 2)}), flush=True)
    print(json.dumps(counted(answers, asked.optima)), flush=True)


def counted(answers: dict[str, Solved], optima: Path) -> dict[str, int]:
    """Instances, equal to the published optimum, proved, below it."""
    with optima.open(encoding="utf-8") as file:
        best = {row["problem"]: int(row["optimum"]) for row in csv.DictReader(file)}
    known = {name: solved for name, solved in answers.items() if name in best}
    return {
        "instances": len(known),
        "equal": sum(solved.finish_minutes == best[name] for name, solved in known.items()),
        "proved": sum(solved.status == "proved" for solved in known.values()),
        "below": sum(solved.finish_minutes < best[name] for name, solved in known.items()),
    }


if __name__ == "__main__":
    main()
