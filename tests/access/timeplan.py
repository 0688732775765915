"""Who may open a lesson's time plan, make one, accept it, print it; whose strip is whose."""

from kitchen.timeplan.actions import accept_draft, plan_longer
from kitchen.timeplan.queries import plan_page
from tests.access_matrix import Row, answers


def lesson(cast):
    return {"lesson": cast.lesson.code}


def a_job(cast):
    return {"job": str(plan_longer(lesson=cast.lesson, by=cast.lecturer).key)}


def planned(cast):
    """A lesson whose plan is accepted: only that is printed."""
    accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)
    return lesson(cast)


STAFF_READ = answers(403, "student other_student external", rest=200)
TEACHES = answers(302, "lecturer cover", 404, "other_lecturer", rest=403)
OWN = answers(200, "student", 404, "other_student", rest=403)

ROWS = (
    Row("timeplan:plan", "GET", STAFF_READ, lesson),
    Row("timeplan:chances", "GET", STAFF_READ, lesson),
    Row("timeplan:wall", "GET", STAFF_READ, lesson),
    Row("timeplan:wall_paper", "GET", STAFF_READ, planned),
    Row("timeplan:longer", "POST", TEACHES, lesson),
    Row("timeplan:minutes", "POST", TEACHES, lesson, lambda cast: {"minutes": "recipe"}),
    Row("timeplan:progress", "GET", answers(403, "student other_student external", rest=302), lesson),
    Row("timeplan:stop", "POST", TEACHES, lesson, a_job),
    Row("timeplan:accept", "POST", answers(409, "lecturer cover", 404, "other_lecturer", rest=403), lesson),
    Row(
        "timeplan:way_out",
        "POST",
        answers(409, "lecturer manager", 404, "other_lecturer cover", rest=403),
        lesson,
    ),
    Row("timeplan:lecturer_paper", "GET", STAFF_READ, planned),
    Row("timeplan:strips_paper", "GET", STAFF_READ, planned),
    Row("timeplan:own_strip", "GET", OWN, lesson),
    Row("timeplan:own_strip_paper", "GET", OWN, planned),
)
