"""Scales recipes for a class and measures it, then the sheets of the class and the search of a large book.

    python -m tests.benchmarks.scaling [--benches 30] [--recipe R11] [--alone]

Prints JSON lines: one batch scaled, the kits of all benches, the whole page of "Scale it" for
all benches, and every recipe and variant of the demonstration college at 1 to 40 portions (no
database, no query); then what ``sheets`` and ``search`` beside this file print: the sheets of 30
benches as one PDF, and a book of 5,000 recipes searched, with their queries. ``--alone`` leaves
those two out.
"""

import argparse
import subprocess
import sys

from curriculum.recipes.scaled.asked import Asked
from curriculum.recipes.scaled.page import Book, page_of
from curriculum.recipes.scaling import scale
from kitchen.stores.kits import Batch, plan_kits
from tests.benchmarks.machine import fixed_loop, measured, say
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

BOOK = Book({})


def main() -> None:
    """One batch, a class, a page, the whole book."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--benches", type=int, default=30)
    said.add_argument("--recipe", default="R11", help="the longest recipe of the college")
    said.add_argument("--alone", action="store_true", help="without the sheets and the search")
    asked = said.parse_args()
    machine = fixed_loop()
    recipe = college_recipe(asked.recipe)
    wanted = recipe.portions_stated * 2
    scaled, facts = measured(lambda: scale(recipe, wanted))
    say("one batch", machine, recipe=recipe.code, lines=len(scaled.lines), **facts)
    batches = [Batch("bench", str(n), recipe, wanted, n) for n in range(1, asked.benches + 1)]
    kits, facts = measured(lambda: plan_kits(batches))
    say("kits", machine, kits=len(kits), lines=sum(len(kit.lines) for kit in kits), **facts)
    page, facts = measured(lambda: page_of(recipe, Asked(wanted, asked.benches), BOOK))
    say("page", machine, benches=asked.benches, notices=len(page.hand) + len(page.decide), **facts)
    book = [college_recipe(code) for code in RECIPE_CODES + VARIANT_CODES]
    done, facts = measured(lambda: [scale(each, portions) for each in book for portions in range(1, 41)])
    say("the whole book, 1 to 40 portions", machine, batches=len(done), **facts)
    for beside in () if asked.alone else ("sheets", "search"):
        subprocess.run([sys.executable, "-m", f"tests.benchmarks.{beside}"], check=True)


if __name__ == "__main__":
    main()
