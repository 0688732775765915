"""Whose order of work is whose: a learner's own, the lesson's lecturer, who looks over the marking."""

from uuid import uuid4

from tests.access_matrix import Row, answers
from tests.builders.own_order import handed_in, kept


def lesson(cast):
    return {"lesson": cast.lesson.code}


def learner(cast):
    return lesson(cast) | {"learner": cast.learner.college_number}


def with_an_order(cast):
    kept(cast)
    return lesson(cast)


def of_one_handed_in(cast):
    handed_in(cast)
    return learner(cast)


def one_button(**more):
    return lambda cast: {"key": str(uuid4()), **more}


OWN = answers(200, "student", 404, "other_student", rest=403)
READ = answers(200, "lecturer cover second_marker verifier manager", 404, "other_lecturer", rest=403)
TEACHES = answers(302, "lecturer cover", 404, "other_lecturer", rest=403)

ROWS = (
    Row("timeplan:own_order", "GET", OWN, lesson),
    Row(
        "timeplan:own_order",
        "POST",
        answers(302, "student", 404, "other_student", rest=403),
        lesson,
        one_button(based_on="0", at_1="09:20"),
    ),
    Row(
        "timeplan:own_order_hand_in",
        "POST",
        answers(302, "student", 404, "other_student", rest=403),
        with_an_order,
        one_button(based_on="1"),
    ),
    Row("timeplan:own_order_paper", "GET", OWN, with_an_order),
    Row("timeplan:own_orders", "GET", READ, lesson),
    Row("timeplan:own_orders_assessed", "POST", TEACHES, lesson, one_button(own_order_assessed="yes")),
    Row("timeplan:own_order_of", "GET", READ, learner),
    Row("timeplan:own_order_of_paper", "GET", READ, learner),
    Row(
        "timeplan:own_order_open", "POST", TEACHES, of_one_handed_in, one_button(why="The lesson was moved.")
    ),
)
