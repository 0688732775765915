"""Who draws and reads samples: the verifier, and the external examiner what was drawn."""

from assessments.verification.actions import draw_sample
from tests.access_matrix import Row, answers
from tests.builders.marking import WEAK, marked

READ = answers(200, "verifier external", rest=403)


def sample(cast):
    marked(cast, WEAK)
    drawn = draw_sample(lessons=[cast.lesson.code], seed="20270308", by=cast.verifier)
    return {"code": drawn.code}


def sitting(cast):
    found = sample(cast)
    return {**found, "sitting": cast.lesson.briefs.get().sittings.get(student=cast.learner).code}


def not_drawn(cast):
    found = sample(cast)
    return {**found, "sitting": cast.lesson.briefs.get().sittings.get(student=cast.partner).code}


def marked_scheme(cast):
    marked(cast, WEAK)
    return {"code": "hundred_points"}


NO_SCHEME = answers(404, "verifier manager external", rest=403)
FIGURES = answers(200, "verifier manager external", rest=403)

ROWS = (
    Row("verification:agreements", "GET", FIGURES),
    Row("verification:agreement", "GET", FIGURES, marked_scheme),
    Row("verification:agreement", "GET", NO_SCHEME, {"code": "none"}),
    Row("verification:samples", "GET", READ),
    Row("verification:samples", "POST", answers(200, "verifier", rest=403)),
    Row("verification:sample", "GET", READ, sample),
    Row("verification:sitting", "GET", READ, sitting),
    Row("verification:sitting", "GET", answers(404, "verifier external", rest=403), not_drawn),
)
