"""Measures the main job on one lesson of twelve benches; prints a JSON line for each part.

    python -m tests.benchmarks.main_job

Seconds and queries for its kits, its time plan (with status and gap), its labels and its
page, on a SQLite database in a temporary folder. ``machine`` is the time of a fixed loop.
"""

import os
import tempfile
from functools import partial

import django

BENCHES = ("R01",) * 10 + ("V1", "V2")


def main() -> None:
    """Lay the tables, build the lesson, measure."""
    with tempfile.TemporaryDirectory(prefix="kitchen-benchmark-") as folder:
        os.environ["DATABASE_URL"] = f"sqlite:///{folder}/benchmark.sqlite3"
        os.environ["KITCHEN_DATA"] = folder
        os.mkdir(f"{folder}/static")
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
        django.setup()
        measure_all()


def measure_all() -> None:
    """Everything that needs the framework, once it is set up."""
    from django.core.management import call_command
    from django.db import connection
    from django.test import Client
    from django.test.utils import CaptureQueriesContext
    from django.urls import reverse

    from kitchen.rooms.actions import add_room
    from kitchen.stores.actions import accept_kits
    from kitchen.stores.proposal import prepare
    from kitchen.stores.queries import kit_question
    from kitchen.timeplan.effort import Effort
    from kitchen.timeplan.fits import judge
    from kitchen.timeplan.queries import lesson_data
    from kitchen.website.demonstration.entries import rooms_in
    from tests.benchmarks.machine import fixed_loop, measured, say
    from tests.builders.book import a_person
    from tests.builders.recipes import fixture
    from tests.builders.stores import college_lots, quiche_stage

    call_command("migrate", verbosity=0)
    for room in rooms_in(fixture("rooms.json")):
        add_room(entry=room, by=a_person("priya", "manager"))
    stage = quiche_stage(benches=BENCHES)
    college_lots()
    lesson, machine = stage.lesson, fixed_loop()
    counted = partial(CaptureQueriesContext, connection)

    proposal, facts = measured(lambda: prepare(kit_question(lesson)), counted)
    say("kits", machine, **facts, kits=len(proposal.kits), benches=len(BENCHES))
    _, facts = measured(lambda: accept_kits(lesson=lesson, by=stage.stores), counted)
    say("kits kept", machine, **facts)

    data, facts = measured(lambda: lesson_data(lesson), counted)
    say("question of the time plan", machine, **facts)
    for words, effort in (("time plan", Effort()), ("time plan by our own rule", None)):
        verdict, facts = measured(partial(judge, data, effort))
        say(words, machine, **facts, **plan_facts(verdict))

    client = Client(headers={"host": "127.0.0.1"})
    client.force_login(stage.stores, "django.contrib.auth.backends.ModelBackend")
    for words, name in (
        ("labels", "stores:labels_pdf"),
        ("page of the kits", "stores:kits"),
        ("page", "website:lesson"),
    ):
        address = reverse(name, kwargs={"lesson": lesson.code})
        answer, facts = measured(partial(client.get, address), counted)
        say(words, machine, **facts, status=answer.status_code, bytes=len(answer.content))


def plan_facts(verdict: object) -> dict:
    """Status, finish, bound and gap of what was planned."""
    plan = verdict.planned.plan if verdict.planned else None
    if plan is None:
        return {"status": "no plan", "fits": verdict.fits}
    finish, bound = plan.finish_minutes, plan.bound_minutes
    gap = round((finish - bound) / finish, 4) if finish else 0
    return {
        "status": str(plan.status),
        "fits": verdict.fits,
        "finish_minutes": finish,
        "bound_minutes": bound,
        "gap": gap,
    }


if __name__ == "__main__":
    main()
