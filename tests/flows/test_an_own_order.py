"""A learner writes an order of work, is told what breaks, mends it, hands it in; the lecturer reads it."""

import pytest

from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.queries import plan_page
from tests.builders.cast import build_cast
from tests.builders.own_order import assess
from tests.flows.person import Person

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    made = build_cast()
    assess(made)
    accept_draft(lesson=made.lesson, draft=plan_page(made.lesson).draft, by=made.lecturer)
    return made


def test_from_the_first_page_to_the_lecturers_reading(cast):
    code = cast.lesson.code
    student = Person(cast.student)
    student.open("website:the_day")
    assert f"/lessons/{code}/my-order/" in student.page
    student.open("timeplan:own_strip", lesson=code)
    student.sees("The plan of your bench is not shown yet.")

    student.open("timeplan:own_order", lesson=code)
    student.send(at_1="09:20", at_2="10:45", meanwhile_2="Wash the bowl")
    student.open("timeplan:own_order", lesson=code)
    student.sees("One rule breaks", "Step 2 follows step 1 after 75 min; at most 60 min.")
    student.sees("No cleaning has a time and its minutes yet.", "Nothing is written for when")

    student.send(
        at_2="09:45",
        clean_at_1="09:50",
        clean_minutes_1="5",
        clean_task_1="Bench and bowl",
        contingency="If it browns early, down ten degrees.",
    )
    student.open("timeplan:own_order", lesson=code)
    student.sees("Nothing breaks", "Being written")
    assert "To think about" not in student.words()
    student.send("timeplan:own_order_hand_in", kwargs={"lesson": code})
    student.open("timeplan:own_order", lesson=code)
    student.sees("Handed in", "Bench and bowl")
    student.open("timeplan:own_strip", lesson=code)
    student.sees("Rub the butter into the flour")

    lecturer = Person(cast.lecturer)
    lecturer.open("website:lesson", lesson=code)
    assert f"/lessons/{code}/orders-of-work/" in lecturer.page
    lecturer.open("timeplan:own_orders", lesson=code)
    lecturer.sees("1 of 2 handed in.", "Handed in", "Nothing breaks.")
    lecturer.open("timeplan:own_order_of", lesson=code, learner="N100")
    lecturer.sees("09:45", "The site’s plan:", "If it browns early")
    assert lecturer.open("timeplan:own_order_of_paper", lesson=code, learner="N100").content[:5] == b"%PDF-"

    lecturer.open("timeplan:own_order_of", lesson=code, learner="N100")
    lecturer.send(
        "timeplan:own_order_open", kwargs={"lesson": code, "learner": "N100"}, why="The oven was changed."
    )
    student.open("timeplan:own_order", lesson=code)
    student.sees("Opened again by Ansel Wharfinger", "The oven was changed.")
    student.send(at_2="09:50")


def test_another_learner_finds_nothing(cast):
    other = Person(cast.other_student)
    for name in ("timeplan:own_order", "timeplan:own_order_paper"):
        other.open(name, status=404, lesson=cast.lesson.code)
    other.open("timeplan:own_order_of", status=403, lesson=cast.lesson.code, learner="N100")


def test_a_lecturer_says_that_orders_are_not_assessed_and_the_plan_is_shown(cast):
    lecturer = Person(cast.lecturer)
    lecturer.open("timeplan:own_orders", lesson=cast.lesson.code)
    lecturer.send("timeplan:own_orders_assessed", kwargs={"lesson": cast.lesson.code})
    student = Person(cast.student)
    student.open("timeplan:own_strip", lesson=cast.lesson.code)
    student.sees("Rub the butter into the flour")
