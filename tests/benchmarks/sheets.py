"""Makes the recipe sheets of a class as one PDF and measures it; nothing is read from a database.

    python -m tests.benchmarks.sheets [--benches 30] [--recipe R11]

Prints JSON lines: ordinary print when no font is loaded yet, ordinary print again, large print.
Each bench has a name in another script, so that every font of the project is used. How many
queries a lesson's sheets take is a test: ``tests/kitchen/website/sheets/test_queries.py``.
"""

import argparse

from curriculum.recipes.bench_sheet import BenchFacts, bench_sheet
from curriculum.recipes.paper import bench_sheets_paper
from tests.benchmarks.machine import fixed_loop, measured, say
from tests.builders.recipes import college_recipe
from tests.curriculum.test_paper import SCRIPTS


def main() -> None:
    """The sheets of a class in ordinary print, twice, and in large print."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--benches", type=int, default=30)
    said.add_argument("--recipe", default="R11", help="the longest recipe of the college")
    asked = said.parse_args()
    machine = fixed_loop()
    names = [name for name, _ in SCRIPTS.values()]
    for what, large in (("first", False), ("again", False), ("large print", True)):
        benches = [
            BenchFacts(str(n), (f"Learner {n}", names[n % len(names)]), 8, large_print=large)
            for n in range(1, asked.benches + 1)
        ]
        pdf, facts = measured(lambda benches=benches: _paper(asked.recipe, benches))
        pages = pdf.count(b"/Type /Page\n")
        say(f"sheets, {what}", machine, benches=len(benches), pages=pages, bytes=len(pdf), **facts)


def _paper(code: str, benches: list[BenchFacts]) -> bytes:
    recipe = college_recipe(code)
    return bench_sheets_paper([bench_sheet(recipe, each, {}) for each in benches], "Recipe sheets")


if __name__ == "__main__":
    main()
