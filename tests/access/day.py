"""Who may open a running class, tap in it, show it, and learn from it."""

import uuid

from django.core import signing

from kitchen.timeplan.day.pages import replan_page
from kitchen.timeplan.day.views import SEAL
from tests.access_matrix import Row, answers
from tests.builders.running import begun, now_of, planned, second_oven, tapped


def lesson(cast):
    planned(cast)
    return {"lesson": cast.lesson.code}


def running(cast):
    begun(cast)
    return {"lesson": cast.lesson.code}


def bench(cast):
    return running(cast) | {"bench": "1"}


def late(cast):
    second_oven(cast)
    begun(cast, 20)
    tapped(cast, "started", "1", 1, 0, ago=5)
    for _ in range(4):
        tapped(cast, "later", "1", 1, 0, minutes=5)
    return {"lesson": cast.lesson.code}


def timed(cast):
    begun(cast, 40)
    tapped(cast, "started", "1", 1, 0, ago=20)
    tapped(cast, "done", "1", 1, 0, ago=8)
    return {"lesson": cast.lesson.code}


def key():
    return {"key": str(uuid.uuid4())}


def proposal(cast):
    kept = replan_page(now_of(cast))["kept"]
    return key() | {"proposal": signing.dumps(kept, salt=SEAL + cast.lesson.code, compress=True)}


WATCH = answers(200, "lecturer cover technician", 404, "other_lecturer", rest=403)
LEAD = answers(200, "lecturer cover", 404, "other_lecturer", rest=403)
TAP = answers(302, "lecturer cover", 404, "other_lecturer", rest=403)

ROWS = (
    Row("timeplan:day", "GET", WATCH, lesson),
    Row("timeplan:day_bench", "GET", WATCH, bench),
    Row("timeplan:day_tap", "POST", TAP, lesson, lambda cast: key() | {"what": "began"}),
    Row("timeplan:day_replan", "GET", LEAD, running),
    Row("timeplan:day_accept", "POST", TAP, late, proposal),
    Row("timeplan:day_board", "GET", answers(403, "student other_student external", rest=200), lesson),
    Row("timeplan:day_after", "GET", WATCH, timed),
    Row("timeplan:day_learn", "POST", TAP, timed, lambda cast: key() | {"technique": "rubbing_in"}),
)
