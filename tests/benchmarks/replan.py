"""Measures the re-plan on class files in progress; prints one JSON line for each disturbance.

    python -m tests.benchmarks.replan FOLDER [--count 40] [--reference 20]

FOLDER holds class files (``*.json``). Each is planned once; a seed chooses the minute and
what goes wrong (the kinds in turn, "none" among them). ``price`` is that of the answer,
``best`` the least of any run, ``ratio`` one over the other. ``moved`` counts what had begun
and was moved; ``breaks`` what cannot be cooked. A last line sums up: it is what is promised.
"""

import argparse
import json
from pathlib import Path
from time import perf_counter

from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.situation import price
from kitchen.timeplan.day.solver import oven_moves, replan
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.solver import solve
from tests.benchmarks.machine import fixed_loop
from tests.builders.day import KINDS, disturbed
from tests.builders.timeplan import problem_of_class


def main() -> None:
    """One line a disturbance, then the sum."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("folder", type=Path)
    said.add_argument("--count", type=int, default=40)
    said.add_argument("--reference", type=float, default=20.0)
    asked = said.parse_args()
    machine = fixed_loop()
    paths = [p for p in sorted(asked.folder.glob("*.json")) if "-B1-" not in p.stem]
    planned: dict[str, tuple] = {}
    lines = []
    for number in range(asked.count):
        path, kind = paths[number * 7 % len(paths)], KINDS[number % len(KINDS)]
        if path.stem not in planned:
            problem = problem_of_class(json.loads(path.read_text("utf-8")))
            planned[path.stem] = (problem, solve(problem, Effort(seconds=4.0)).answer)
        lines.append(measure(path.stem, *planned[path.stem], kind, number, asked.reference))
        print(json.dumps(lines[-1] | {"machine": machine}), flush=True)
    print(json.dumps(summed(lines) | {"machine": machine}), flush=True)


def measure(name: str, problem, plan, kind: str, seed: int, reference: float) -> dict[str, object]:
    """The figures of one disturbance."""
    at = disturbed(problem, plan, kind, seed)
    began = perf_counter()
    found = replan(at)
    seconds = perf_counter() - began
    longer = replan(at, reference) if found.price and found.price.figure else found
    prices = [p.figure for p in (found.price, longer.price) if p is not None]
    best = min(prices, default=None)
    moved = sum(found.answer.starts[n] != at.old.starts[n] for n in at.past.fixed) if found.answer else 0
    return {
        "name": name,
        "kind": kind,
        "now": at.now,
        "coming": len(at.coming),
        "seconds": round(seconds, 3),
        "how": found.how,
        "price": found.price.figure if found.price else None,
        "best": best,
        "ratio": round((found.price.figure + 1) / (best + 1), 3) if found.price else None,
        "held_over": found.price.held_over if found.price else None,
        "moved": moved,
        "oven_moves": oven_moves(at, found.answer) if found.answer else None,
        "breaks": len(hard(check_from(at.problem, found.answer, at.past))) if found.answer else None,
        "undisturbed_price": price(at, found.answer).figure if kind == "none" and found.answer else None,
    }


def summed(lines: list[dict]) -> dict[str, object]:
    """What is promised, over all lines."""
    answered = [line for line in lines if line["ratio"] is not None]
    near = [line for line in answered if line["ratio"] <= 1.1]
    still = [line for line in lines if line["kind"] == "none"]
    return {
        "disturbances": len(lines),
        "answered": len(answered),
        "slowest_seconds": max(line["seconds"] for line in lines),
        "within_a_tenth": round(len(near) / max(1, len(lines)), 3),
        "begun_and_moved": sum(line["moved"] for line in lines),
        "breaks": sum(line["breaks"] or 0 for line in lines),
        "undisturbed_and_moved": sum(bool(line["price"] or line["oven_moves"]) for line in still),
    }


if __name__ == "__main__":
    main()
