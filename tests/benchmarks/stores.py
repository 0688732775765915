"""Measures the stores: a week added up, whole packs at least cost, a recall, issues at once.

    python -m tests.benchmarks.stores [--only packs] [--lessons 40] [--foods 150] [--years 5] [--tries 500]

Prints JSON lines. One function a measure, listed in ``MEASURES``; ``--only`` runs one of them.
What needs the database has it in a temporary folder.

``packs``: so many foods, six packs each, four suppliers, with the proof flag, the ratio of what
each food costs in its best single pack and of what each of four lessons' lines costs rounded up
alone. ``week``: forty approved lessons of one week, the page with its queries. ``recall``: so many
years (``--years``) of a college of 2,000 learners (sizes in ``tests.builders.five_years``): a lot
that went to some lessons, one that went through bowls to every learner of a week, its contact
sheet, and back from a plate; then the pages of the stores at that size. ``issue``: so many
tries of two people who issue the last of a lot, on SQLite or on the PostgreSQL that ``DATABASE_URL``
names (``.ci/pg python -m tests.benchmarks.stores --only issue``), beside one who issues alone.
"""

import argparse
import os
import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, time, timedelta
from functools import partial

from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Ask, Wanted, faults
from kitchen.stores.orders.proposal import propose
from tests.benchmarks.machine import fixed_loop, measured, say
from tests.builders.orders import MONDAY, week_ask

LINES_A_FOOD = 4


def packs(asked: argparse.Namespace, machine: float) -> None:
    """The optimum of three weeks, beside it the two ways that people reckon by hand."""
    for number in (1, 2, 3):
        ask = week_ask(asked.foods, 6, 4, number)
        answer, facts = measured(lambda ask=ask: optimum(ask))
        alone, single = by_hand(ask)
        say(
            "packs",
            machine,
            foods=asked.foods,
            proved=answer.proved,
            faults=len(faults(ask, answer)),
            pence=answer.pence,
            ratio_alone=round(alone / answer.pence, 3),
            ratio_single=round(single / answer.pence, 3),
            **facts,
        )


def by_hand(ask: Ask) -> tuple[int, int]:
    """Every line alone and the best single pack after pooling, as the page of a week reckons them."""
    lines = [replace(want, milligrams=part) for want in ask.wanted for part in parts_of(want)]
    suppliers = {
        drop.supplier: SupplierData(
            drop.supplier, drop.supplier, 1, time(12), (1,), drop.charge_pence, drop.least_pence
        )
        for drop in ask.drops
    }
    found = propose(ask.wanted, lines, ask.packs, suppliers, datetime.combine(MONDAY - timedelta(5), time(9)))
    return found.alone_pence, found.single_pence


def parts_of(want: Wanted) -> list[int]:
    """The need of four lessons, of which each has a part."""
    part = want.milligrams // LINES_A_FOOD
    return [want.milligrams - part * (LINES_A_FOOD - 1), *[part] * (LINES_A_FOOD - 1)]


def week(asked: argparse.Namespace, machine: float) -> None:
    """The page of a week with that many lessons, in a database of its own."""
    with tempfile.TemporaryDirectory(prefix="kitchen-benchmark-") as folder:
        a_database(folder)
        measure_week(asked, machine)


def a_database(folder: str, here: str = "") -> None:
    """The tables of the project in that folder, or ``here``."""
    import django

    os.environ["DATABASE_URL"] = here or f"sqlite:///{folder}/benchmark.sqlite3"
    os.environ["KITCHEN_DATA"] = folder
    os.makedirs(f"{folder}/static", exist_ok=True)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
    django.setup()
    from django.core.management import call_command

    call_command("migrate", verbosity=0)


def measure_week(asked: argparse.Namespace, machine: float) -> None:
    """Needs, stock and packs of the week, three times; the last is told."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    from kitchen.stores.orders.queries import week_basis, week_page
    from tests.builders.weeks import a_week_of

    monday = a_week_of(asked.lessons)
    counting = lambda: CaptureQueriesContext(connection)  # noqa: E731
    for _ in range(2):
        basis, facts = measured(lambda: week_basis(monday), counting)
    lines = len(basis.served)
    say("week, needs less stock", machine, lessons=asked.lessons, lines=lines, **facts)
    page, facts = measured(lambda: week_page(monday), counting)
    answer = page.proposal.answer
    say(
        "week, whole page", machine, foods=len(basis.foods), proved=answer.proved, pence=answer.pence, **facts
    )


def recall(asked: argparse.Namespace, machine: float) -> None:
    """Forward from two lots and back from a plate, in a database of its own."""
    with tempfile.TemporaryDirectory(prefix="kitchen-benchmark-") as folder:
        a_database(folder)
        measure_recall(asked, machine)
        measure_pages(asked, machine)


def measure_recall(asked: argparse.Namespace, machine: float) -> None:
    """The week in the middle of the years, each question asked twice; the second is told."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    from kitchen.lessons.models import Place
    from kitchen.stores.models import Kit, Lot, Movement
    from kitchen.stores.recall.paper import contact_sheet
    from kitchen.stores.recall.queries import Asked, lots_asked, plate_of, recall_of
    from tests.builders.five_years import WEEKS, years_of_stores

    _, facts = measured(lambda: years_of_stores(asked.years))
    sizes = {model.__name__.lower() + "s": model.objects.count() for model in (Lot, Kit, Movement)}
    say("recall, written", machine, years=asked.years, **sizes, **facts)
    counting = lambda: CaptureQueriesContext(connection)  # noqa: E731
    week = asked.years * WEEKS // 2
    for what, number in (("recall, some lessons", 9), ("recall, every learner through bowls", 0)):
        for _ in range(2):
            lots, found = measured(lambda number=number: lots_asked(Asked(text=f"b{week}-{number}")))
            page, facts = measured(lambda lots=lots: recall_of(lots), counting)
        faults = sum(len(row.faults) for row in page.lots)
        told = {"lots": len(page.lots), "lessons": len(page.lessons), "learners": page.learners}
        say(what, machine, faults=faults, find_seconds=found["seconds"], **told, **facts)
    _, facts = measured(lambda: contact_sheet(page))
    say("recall, contact sheet", machine, **facts)
    place = Place.objects.filter(shift__lesson__code=page.lessons[0].code).select_related("shift").first()
    for _ in range(2):
        plate, facts = measured(lambda: plate_of(place), counting)
    say("recall, back from a plate", machine, lots=len(plate.lots), **facts)


def measure_pages(asked: argparse.Namespace, machine: float) -> None:
    """The pages of the stores at that size, as the stores person opens them; the second time is told."""
    from django.db import connection
    from django.test import Client
    from django.test.utils import CaptureQueriesContext

    from curriculum.foods.models import Food, Supplier
    from curriculum.people.models import User
    from kitchen.stores.models import Lot
    from tests.builders.five_years import WEEKS, monday_of

    browser, counting = Client(SERVER_NAME="localhost"), lambda: CaptureQueriesContext(connection)
    browser.force_login(
        User.objects.get(username="hana"), backend="django.contrib.auth.backends.ModelBackend"
    )
    monday = monday_of(asked.years * WEEKS - 1, asked.years)
    moved = Lot.objects.filter(made_in=None).order_by("-moves").first()
    pages = {
        "stock": "/stores/stock/",
        "count": "/stores/count/",
        "expiring": "/stores/expiring/",
        "a lot": f"/stores/lots/{moved.code}/",
        "the week": f"/stores/week/{monday.isoformat()}/",
        "orders": "/stores/orders/",
        "deliveries": "/stores/deliveries/",
        "recall, search": "/stores/recall/",
        "recall, a supplier": f"/stores/recall/?supplier={Supplier.objects.first().pk}",
        "recall, a food": f"/stores/recall/?food={Food.objects.get(code='year_5').pk}",
        "the first page": "/",
    }
    for name, address in pages.items():
        for _ in range(2):
            answer, facts = measured(lambda address=address: browser.get(address), counting)
        kilobytes = len(answer.content) // 1024
        say(f"page: {name}", machine, status=answer.status_code, kilobytes=kilobytes, **facts)


def issue(asked: argparse.Namespace, machine: float) -> None:
    """Two who want the last of a lot, beside one who issues alone."""
    here = os.environ.get("DATABASE_URL", "")
    with tempfile.TemporaryDirectory(prefix="kitchen-benchmark-") as folder:
        a_database(folder, here if here.startswith("postgres") else "")
        measure_issue(asked, machine)


def measure_issue(asked: argparse.Namespace, machine: float) -> None:
    """One alone, two at their own pace, two in the same instant; each has scenes of its own."""
    from django.db import connection

    from kitchen.stores.models import Lot, Movement
    from kitchen.website.ledger_checks import faults
    from tests.builders.cast import build_cast
    from tests.builders.rivals import rivals
    from tests.faults.workshop import dismiss_all, race, worked

    rivals(build_cast(), 3 * asked.tries + 1)
    race("issue_own", 1, 2, first=3 * asked.tries)
    alone = 0.0
    for at, (name, hands, meet) in enumerate(
        (("alone", 1, False), ("two at once", 2, False), ("two in one instant", 2, True))
    ):
        first = at * asked.tries
        do = partial(race, "issue_own", asked.tries, hands, first=first, meet=meet)
        told, facts = measured(do)
        answers = [answer for each in told for answer in each.values()]
        cost = 1000 * worked() / len(answers)
        speed = len(answers) / facts["seconds"]
        alone = alone or speed
        say(
            f"issue, {name}",
            machine,
            database=connection.vendor,
            issued=answers.count("moved-1"),
            refused=answers.count("short"),
            a_second=round(speed, 1),
            to_alone=round(speed / alone, 2),
            processor_ms_a_try=round(cost, 1),
            **facts,
        )
    dismiss_all()
    left = Lot.objects.filter(code__startswith="rival", on_hand_milligrams=50_000).count()
    rows = Movement.objects.filter(kind="issue").count()
    say("issue, the book", machine, lots=left, issues=rows, faults=len(faults()))


#: What is measured, by the word after ``--only``.
MEASURES: dict[str, Callable[[argparse.Namespace, float], None]] = {
    "packs": packs,
    "week": week,
    "recall": recall,
    "issue": issue,
}


def main() -> None:
    """Run the measures that are asked for."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--only", choices=sorted(MEASURES))
    said.add_argument("--lessons", type=int, default=40)
    said.add_argument("--foods", type=int, default=150)
    said.add_argument("--years", type=int, default=5)
    said.add_argument("--tries", type=int, default=500)
    asked = said.parse_args()
    machine = fixed_loop()
    for name, measure in MEASURES.items():
        if asked.only in (None, name):
            measure(asked, machine)


if __name__ == "__main__":
    main()
