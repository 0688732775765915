"""Who may draft feedback, hand it back, and read it: the learner's own, and only once it is out."""

from tests.access_matrix import Row, answers
from tests.builders.feedback import handed_back, weakly_marked


def lesson(cast):
    weakly_marked(cast)
    return {"lesson": cast.lesson.code}


def learner(cast):
    return {**lesson(cast), "learner": cast.learner.college_number}


def out(cast):
    return {"code": handed_back(cast).sitting.code}


def not_out(cast):
    return {"code": weakly_marked(cast).code}


TEACHES = answers(200, "lecturer cover", 404, "other_lecturer", rest=403)
HANDS_BACK = answers(302, "lecturer", 404, "other_lecturer cover", rest=403)
ROWS = (
    Row("feedback:list", "GET", answers(200, "student other_student", rest=403)),
    Row("feedback:own", "GET", answers(200, "student", 404, "other_student", rest=403), out),
    Row("feedback:own", "GET", answers(404, "student other_student", rest=403), not_out),
    Row("feedback:paper", "GET", answers(200, "student", 404, "other_student", rest=403), out),
    Row("feedback:paper", "GET", answers(404, "student other_student", rest=403), not_out),
    Row("feedback:lesson", "GET", TEACHES, lesson),
    Row("feedback:write", "GET", TEACHES, learner),
    Row("feedback:write", "POST", TEACHES, learner),
    Row("feedback:hand_back", "POST", HANDS_BACK, learner),
    Row("feedback:hand_back_all", "POST", HANDS_BACK, lesson),
)
