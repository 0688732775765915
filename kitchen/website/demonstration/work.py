"""Makes the demonstration college and works its lessons through, stage by stage, saying what it does.

Every stage goes through the actions that the pages use, looks first whether it was done,
and stands or falls by itself: a start that was interrupted goes on where it ended.
"""

from collections.abc import Callable
from datetime import date

from django.core.management import call_command

from curriculum.courses.models import Course
from curriculum.people.models import College
from curriculum.recipes.models import Version
from kitchen.lessons.models import Lesson
from kitchen.website.demonstration import bought, equipment, held, lessons, marks, planning, supplies
from kitchen.website.demonstration.book import write_book
from kitchen.website.demonstration.college import write_college, write_courses

Say = Callable[[str], None]


def make_college(say: Say) -> None:
    """Make the tables and write the college down, unless it stands."""
    call_command("migrate", verbosity=0, interactive=False)
    if not College.objects.exists():
        say("Writing down the college: people, rooms, techniques, foods.")
        write_college(shown_today=lesson_days()[-1])
    if not Version.objects.exists():
        say("Writing, checking and approving the recipes.")
        write_book()
    if not Course.objects.exists():
        write_courses()
    supplies.take_stock_in()
    bought.keep_par()
    equipment.correct()
    held.hold()
    marks.keep_schemes()
    for said in lessons.lessons_to_book():
        prepare(said)


def prepare(said: dict) -> None:
    """Book a lesson of the week after, and do with it what its people have done so far."""
    lesson = lessons.book(said)
    if said.get("places"):
        lessons.place(lesson, said)
    if said.get("asked"):
        supplies.ask(lesson, said)
    if said.get("approved") or equipment.borrows(said):
        supplies.requisition(lesson, said)
    if said.get("brief"):
        marks.write_brief(lesson, said)


def lesson_days() -> list[date]:
    """The days of the lessons worked through, in their order."""
    return sorted(date.fromisoformat(each["date"]) for each in lessons.lessons_to_work())


def work_through(said: dict, say: Say) -> Lesson:
    """Work one lesson through, from the first wish to the feedback handed back."""
    say(f"Working through {said['title']}.")
    lesson = planning.find_what_fits(lessons.book(said), said)
    lessons.place(lesson, said)
    planning.show(lesson, said)
    planning.plan(lesson, said)
    supplies.requisition(lesson, said)
    kit_set = supplies.make_kits(lesson, said)
    supplies.read_labels(kit_set, said)
    supplies.issue(lesson, kit_set, said)
    marks.write_brief(lesson, said)
    marks.check_brief(lesson)
    equipment.count(lesson, said)
    lessons.take_register(lesson, said)
    marks.open_sheets(lesson, said)
    marks.mark(lesson, said)
    marks.give_feedback_back(lesson, said)
    marks.draw_for_verifier(lesson, said)
    return lesson
