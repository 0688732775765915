"""Who may open the pages of lessons."""

import uuid

from tests.access_matrix import Row, answers


def lesson(cast):
    return {"lesson": cast.lesson.code}


def tap(cast):
    return {"learner": cast.learner.college_number, "state": "present", "key": str(uuid.uuid4())}


def benches(cast):
    return {f"bench_{cast.learner.college_number}": "1", "key": str(uuid.uuid4())}


def other_dish(cast):
    return {"recipe": "shortbread", "key": str(uuid.uuid4())}


def plates(cast):
    return {"tasting": "1", "second_marker": "1", "key": str(uuid.uuid4())}


STAFF = "lecturer other_lecturer cover stores technician second_marker verifier manager"
BOOKERS = "lecturer other_lecturer cover manager"
SUPPLY = "lecturer cover stores technician"
ELSE = "other_lecturer"

ROWS = (
    Row("lessons:list", "GET", answers(200, STAFF, rest=403)),
    Row("lessons:book", "GET", answers(200, BOOKERS, rest=403)),
    Row("lessons:book", "POST", answers(200, BOOKERS, rest=403)),
    Row(
        "lessons:change",
        "GET",
        answers(200, "lecturer manager", 404, "other_lecturer cover", rest=403),
        lesson,
    ),
    Row(
        "lessons:change",
        "POST",
        answers(200, "lecturer manager", 404, "other_lecturer cover", rest=403),
        lesson,
    ),
    Row(
        "lessons:cancel",
        "GET",
        answers(200, "lecturer manager", 404, "other_lecturer cover", rest=403),
        lesson,
    ),
    Row(
        "lessons:cancel",
        "POST",
        answers(302, "lecturer manager", 404, "other_lecturer cover", rest=403),
        lesson,
        {"why": "No gas."},
    ),
    Row("lessons:places", "GET", answers(200, SUPPLY, 404, ELSE, rest=403), lesson),
    Row("lessons:places", "POST", answers(302, "lecturer cover", 404, ELSE, rest=403), lesson, benches),
    Row("lessons:plates", "GET", answers(200, "lecturer cover", 404, ELSE, rest=403), lesson),
    Row("lessons:plates", "POST", answers(302, "lecturer cover", 404, ELSE, rest=403), lesson, plates),
    Row("lessons:diets", "GET", answers(200, SUPPLY, 404, ELSE, rest=403), lesson),
    Row(
        "lessons:another_dish",
        "POST",
        answers(302, "lecturer cover", 404, ELSE, rest=403),
        lesson,
        other_dish,
    ),
    Row("lessons:attendance", "GET", answers(200, "lecturer cover", 404, ELSE, rest=403), lesson),
    Row("lessons:attendance", "POST", answers(302, "lecturer cover", 404, ELSE, rest=403), lesson, tap),
)
