"""Searches a book of 5,000 recipes, page by page as a person does, and draws the sheets of 30 benches.

    python -m tests.benchmarks.search [--recipes 5000] [--benches 30] [--times 7]

JSON lines: least and median seconds of a page of the book with its queries, the ratio of the
median to ``machine``; then the sheets of a class as one PDF.
Everything lies in a SQLite database in a temporary folder.
"""

import argparse
import os
import statistics
import tempfile
from functools import partial

import django

#: What is asked, and how.
SEARCHES = {
    "first page": "",
    "page 100": "page=100",
    "one word": "q=butter",
    "two words": "q=plum+walnut",
    "nothing": "q=juggling",
    "two techniques": "technique=rubbing_in&technique=piping",
    "without gluten": "without=gluten",
    "a food": "food=unsalted_butter",
    "times": "one_cook_minutes=120&work_minutes=60",
    "no oven, cheapest first": "oven_minutes=0&sort=portion_pence",
    "every filter": "q=tart&technique=rubbing_in&without=nuts&level=advanced&food=unsalted_butter"
    "&one_cook_minutes=400&work_minutes=200&oven_minutes=100&portion_pence=900&sort=portion_pence",
}


def main() -> None:
    """Lay the tables, the book and a lesson, then measure."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--recipes", type=int, default=5000)
    said.add_argument("--benches", type=int, default=30)
    said.add_argument("--times", type=int, default=7)
    asked = said.parse_args()
    with tempfile.TemporaryDirectory(prefix="kitchen-benchmark-") as folder:
        os.environ["DATABASE_URL"] = f"sqlite:///{folder}/benchmark.sqlite3"
        os.environ["KITCHEN_DATA"] = folder
        os.mkdir(f"{folder}/static")
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
        django.setup()
        measure_all(asked)


def measure_all(asked: argparse.Namespace) -> None:
    """Everything that needs the framework, once it is set up."""
    from django.core.management import call_command
    from django.db import connection
    from django.test import Client
    from django.test.utils import CaptureQueriesContext
    from django.urls import reverse

    from tests.benchmarks.machine import fixed_loop, measured, say
    from tests.builders.book import a_person
    from tests.builders.invented_book import invented_book
    from tests.builders.large_book import lay_book
    from tests.builders.stores import quiche_stage

    call_command("migrate", verbosity=0)
    stage = quiche_stage(benches=("R01",) * asked.benches)
    laid = lay_book(invented_book(asked.recipes), by=a_person("odile"), checker=a_person("solveig"))
    machine, counted = fixed_loop(), partial(CaptureQueriesContext, connection)
    client = Client(headers={"host": "127.0.0.1"})
    client.force_login(stage.lesson.lecturer, "django.contrib.auth.backends.ModelBackend")

    def many(what: str, address: str, **more: object) -> None:
        answers = [measured(partial(client.get, address), counted) for _ in range(asked.times)]
        answer, facts = answers[-1]
        seconds = [each["seconds"] for _, each in answers]
        median = statistics.median(seconds)
        figures = {"least": min(seconds), "median": median, "ratio": round(median / machine, 2)}
        facts = {"queries": facts["queries"], "status": answer.status_code, "bytes": len(answer.content)}
        say(what, machine, **figures, **facts, **more)

    for words, query in SEARCHES.items():
        many(f"book, {words}", f"{reverse('recipes:book')}?{query}", recipes=laid)
    sheets = reverse("sheets:lesson_paper", kwargs={"lesson": stage.lesson.code})
    many("sheets as one PDF", sheets, benches=asked.benches)


if __name__ == "__main__":
    main()
