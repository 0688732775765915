"""Lays an invented book of so many recipes in a temporary database; prints what it took.

    python -m tests.benchmarks.book_of 5000

Two JSON lines: the seconds to invent the recipes and to write them down. A benchmark of the
book's search calls ``invented_book`` and ``lay_book`` of the builders itself.
"""

import os
import sys
import tempfile

import django


def main() -> None:
    """Lay the tables and the book in a temporary folder; print what it took."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    with tempfile.TemporaryDirectory(prefix="kitchen-benchmark-") as folder:
        os.environ["DATABASE_URL"] = f"sqlite:///{folder}/benchmark.sqlite3"
        os.environ["KITCHEN_DATA"] = folder
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
        django.setup()
        measure(count)


def measure(count: int) -> None:
    """Everything that needs the framework, once it is set up."""
    from django.core.management import call_command

    from tests.benchmarks.machine import fixed_loop, measured, say
    from tests.builders.book import a_book, a_person
    from tests.builders.invented_book import invented_book
    from tests.builders.large_book import lay_book

    call_command("migrate", verbosity=0)
    by, checker, machine = a_person("odile"), a_person("solveig"), fixed_loop()
    a_book(by=by, checker=checker)
    recipes, facts = measured(lambda: invented_book(count))
    say("invent", machine, **facts, recipes=count)
    laid, facts = measured(lambda: lay_book(recipes, by=by, checker=checker))
    say("lay", machine, **facts, recipes=laid)


if __name__ == "__main__":
    main()
