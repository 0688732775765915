"""Who may fix things by hand in a lesson's time plan, and who may look at what is fixed."""

from uuid import uuid4

from kitchen.timeplan.pins.actions import fix_start
from kitchen.timeplan.pins.data import START, PinData
from tests.access_matrix import Row, answers

READ = answers(200, "lecturer cover verifier manager", 404, "other_lecturer", rest=403)
TEACHES = answers(302, "lecturer cover", 404, "other_lecturer", rest=403)


def lesson(cast):
    return {"lesson": cast.lesson.code}


def letting_go(cast):
    (row,) = fix_start(lesson=cast.lesson, pins=(PinData(0, START, "1", 1, minute=30),), by=cast.lecturer)
    return {"key": str(uuid4()), "numbers": str(row.pk)}


ROWS = (
    Row("timeplan:fix", "GET", READ, lesson),
    Row(
        "timeplan:fix_start",
        "POST",
        TEACHES,
        lesson,
        lambda cast: {"start-place": "1", "start-part": "1-0", "start-at": "09:30"},
    ),
    Row(
        "timeplan:fix_oven",
        "POST",
        TEACHES,
        lesson,
        lambda cast: {"oven-place": "all", "oven-part": "2-1", "oven-oven": "oven-1"},
    ),
    Row(
        "timeplan:fix_order",
        "POST",
        TEACHES,
        lesson,
        lambda cast: {
            "order-place": "1",
            "order-part": "1-0",
            "order-other_place": "1",
            "order-other_part": "2-0",
        },
    ),
    Row("timeplan:let_go", "POST", TEACHES, lesson, letting_go),
)
