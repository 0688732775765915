"""Who may open a lesson's demonstration, take one, choose its stages, print it."""

import uuid

from kitchen.timeplan.demonstration import plan
from kitchen.timeplan.demonstrations.actions import accept_demonstration
from kitchen.timeplan.demonstrations.queries import inputs_of, shows_of
from tests.access_matrix import Row, answers


def lesson(cast):
    return {"lesson": cast.lesson.code}


def with_a_plan(cast):
    shows = shows_of(cast.lesson)
    made = plan(shows.recipe, 30)
    accept_demonstration(lesson=cast.lesson, plan=made, inputs=inputs_of(shows, 30, ()), by=cast.lecturer)
    return lesson(cast)


def thirty(cast):
    return {"minutes": "30", "key": str(uuid.uuid4())}


def one_stage(cast):
    return {
        "minutes": "30",
        "way_1": "live",
        "minutes_1": "10",
        "way_2": "not_shown",
        "minutes_2": "2",
        "key": str(uuid.uuid4()),
    }


READERS = answers(403, "student other_student external", rest=200)
TEACHES = answers(302, "lecturer cover", 404, "other_lecturer", rest=403)

ROWS = (
    Row("timeplan:demonstration", "GET", READERS, lesson),
    Row("timeplan:demonstration_take", "POST", TEACHES, lesson, thirty),
    Row(
        "timeplan:demonstration_stages",
        "GET",
        answers(200, "lecturer cover", 404, "other_lecturer", rest=403),
        lesson,
    ),
    Row("timeplan:demonstration_stages", "POST", TEACHES, lesson, one_stage),
    Row("timeplan:demonstration_sheet", "GET", READERS, with_a_plan),
    Row("timeplan:demonstration_trays", "GET", READERS, with_a_plan),
)
