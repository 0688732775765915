"""Writes the demonstration college down, through the actions of its topics, in one transaction.

People come first, since every later action is somebody's: the programme manager forms
groups and courses, the stores read labels, one lecturer writes a recipe and another
approves it.
"""

from datetime import date, timedelta

from django.contrib.auth.hashers import make_password
from django.db import transaction

from curriculum.courses.actions import add_course, add_term
from curriculum.foods.actions import add_foods, add_packs, add_suppliers, note_avoidance
from curriculum.people.actions import enrol_learners, form_group, open_accounts, set_up_college
from curriculum.people.models import User
from curriculum.techniques.actions import add_techniques
from kitchen.rooms.actions import add_room
from kitchen.website.demonstration import entries, files
from kitchen.website.demonstration.people import PASSWORD, learners, person


@transaction.atomic
def write_college(shown_today: date) -> None:
    """Write down everything that stands before the first lesson: people, rooms, foods, book, courses."""
    file = files.read("college.json")
    starts_on = date.fromisoformat(file["college"]["term"]["starts_on"])
    _college(file["college"], shown_today)
    _people(file, starts_on)
    manager, stores = person("priya"), person("hana")
    for room in entries.rooms_in(files.read("rooms.json")):
        add_room(entry=room, by=manager)
    add_techniques(entries=entries.techniques_in(files.read("techniques.json")), by=manager)
    add_foods(entries=entries.foods_in(files.read("foods.json")), by=stores)
    stock = files.read("stores.json")
    add_suppliers(entries=entries.suppliers_in(stock), by=stores)
    prefix = files.read("bought.json")["pack_number_prefix"]
    add_packs(entries=entries.packs_in(stock, starts_on, prefix), by=stores)
    _avoidances(file, starts_on, manager)


def _college(college: dict, shown_today: date) -> None:
    set_up_college(
        by=None,
        name=college["name"],
        short_name=college["name"].split()[0],
        is_demonstration=True,
        time_zone=college["time_zone"],
        currency=college["currency"],
        country=college["country"],
        address=college["address"],
        lesson_start_minutes=college["lesson_start_minutes"],
        lesson_clear_down_minutes=college["lesson_clear_down_minutes"],
        waves_at_most=college["settings"]["waves_at_most"],
        term_starts_on=date.fromisoformat(college["term"]["starts_on"]),
        shown_today=shown_today,
        settings={
            "shape": 1,
            "limits": college["limits"],
            **college["settings"],
            "fixtures": files.fingerprint(),
        },
    )


def _people(file: dict, starts_on: date) -> None:
    """Staff, groups and learners; one hash of the one password is made and shared."""
    hashed = make_password(PASSWORD)
    open_accounts(entries=entries.staff_in(file), password_hash=hashed, from_on=starts_on, by=None)
    manager = person("priya")
    for group in file["groups"]:
        form_group(
            code=group["code"],
            year=group["year"],
            name=group["name"],
            level=group["level"],
            lecturer=person(group["lecturer"]),
            budget_pence_a_learner=group["budget_pence_per_learner_per_term"],
            by=manager,
        )
    enrol_learners(entries=entries.learners_in(file), password_hash=hashed, from_on=starts_on, by=manager)


def _avoidances(file: dict, starts_on: date, manager: User) -> None:
    students = learners()
    for learner in file["learners"]:
        for each in learner.get("avoids", ()):
            note_avoidance(
                student=students[learner["code"]],
                from_on=starts_on,
                note=learner.get("emergency_note", "") if "kind" in each else "",
                by=manager,
                **each,
            )


@transaction.atomic
def write_courses() -> None:
    """Write the term and the schemes of work down; the recipe book must stand."""
    term = files.read("college.json")["college"]["term"]
    starts_on, manager = date.fromisoformat(term["starts_on"]), person("priya")
    add_term(
        name=f"Spring {starts_on.year}",
        from_on=starts_on,
        until_on=starts_on + timedelta(weeks=term["weeks"], days=-1),
        closed_on=[date.fromisoformat(day) for day in term["closed_days"]],
        by=manager,
    )
    for course in entries.courses_in(files.read("courses.json")):
        add_course(entry=course, by=manager)
