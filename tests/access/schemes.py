"""Who may open schemes and briefs."""

from tests.access_matrix import Row, answers
from tests.builders.marking import briefed, kept_scheme

READERS = "lecturer other_lecturer cover second_marker verifier manager external"


def scheme(cast):
    return {"code": kept_scheme(cast).scheme.code}


def lesson(cast):
    return {"lesson": cast.lesson.code}


def lesson_with_brief(cast):
    briefed(cast)
    cast.lesson.briefs.update(checked_by=None, checked_at=None)
    return lesson(cast)


ROWS = (
    Row("schemes:list", "GET", answers(200, READERS, rest=403)),
    Row("schemes:scheme", "GET", answers(200, READERS, rest=403), scheme),
    Row(
        "schemes:brief",
        "GET",
        answers(200, "lecturer other_lecturer cover second_marker verifier manager", rest=403),
        lesson,
    ),
    Row("schemes:brief", "POST", answers(200, "lecturer", 404, "other_lecturer cover", rest=403), lesson),
    Row(
        "schemes:check",
        "POST",
        answers(409, "lecturer", 302, "other_lecturer cover second_marker verifier", rest=403),
        lesson_with_brief,
    ),
)
