"""Who may open the recipe sheets."""

from tests.access_matrix import Row, answers


def lesson(cast):
    return {"lesson": cast.lesson.code}


def place(cast):
    return {"lesson": cast.lesson.code, "place": cast.place.code}


OWN = answers(200, "student", 404, "other_student", rest=403)
BENCH = answers(
    200,
    "student lecturer other_lecturer cover stores technician second_marker verifier manager",
    404,
    "other_student",
    rest=403,
)

LESSON = answers(
    200,
    "lecturer other_lecturer cover stores technician second_marker verifier manager",
    rest=403,
)

ROWS = (
    Row("sheets:own", "GET", OWN, lesson),
    Row("sheets:own_paper", "GET", OWN, lesson),
    Row("sheets:lesson_paper", "GET", LESSON, lesson),
    Row("sheets:place", "GET", BENCH, place),
    Row("sheets:place_paper", "GET", BENCH, place),
)
