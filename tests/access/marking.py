"""Who may open mark sheets, give marks and read cards.

The lesson of the cast has two sittings; its second marker has sheets of their own, so that
the rows show blindness too: nobody but the first marker reads before both are in.
"""

from uuid import UUID

from assessments.marking.actions import name_marker, submit_sheet
from assessments.marking.models import Sheet
from tests.access_matrix import Row, answers
from tests.builders.marking import GOOD, WEAK, filled, first_sheet, marked, opened

KEY = UUID("9f7b3a60-0000-4000-8000-000000000001")


def lesson(cast):
    return {"lesson": cast.lesson.code}


def briefed_lesson(cast):
    opened(cast)
    return lesson(cast)


def learner(cast):
    return {**briefed_lesson(cast), "learner": cast.learner.college_number}


def second(cast):
    where = learner(cast)
    name_marker(lesson=cast.lesson, marker=cast.second_marker, by=cast.lecturer)
    return where


def full(cast):
    where = learner(cast)
    sitting = cast.lesson.briefs.get().sittings.get(student=cast.learner)
    filled(first_sheet(sitting))
    return where


def submitted(cast):
    marked(cast)
    return {**lesson(cast), "learner": cast.learner.college_number}


def apart(cast):
    where = second(cast)
    marked(cast)
    sheet = Sheet.objects.get(part="second", sitting__student=cast.learner)
    submit_sheet(sheet=filled(sheet, WEAK), by=cast.second_marker)
    assert GOOD != WEAK
    return where


MARK = {"place": "texture", "value": "7", "key": str(KEY), "based_on": "0"}
TEACHES = "lecturer cover"
NOT_HERE = "other_lecturer second_marker"
ROWS = (
    Row(
        "marking:lesson",
        "GET",
        answers(200, "lecturer cover second_marker verifier manager", 404, "other_lecturer", rest=403),
        briefed_lesson,
    ),
    Row("marking:open", "POST", answers(302, TEACHES, 404, "other_lecturer", rest=403), briefed_lesson),
    Row(
        "marking:name_marker",
        "POST",
        answers(302, "lecturer second_marker", 404, "other_lecturer cover", rest=403),
        briefed_lesson,
        lambda cast: {"marker": cast.second_marker.pk},
    ),
    Row("marking:sheet", "GET", answers(200, TEACHES, 404, NOT_HERE, rest=403), learner),
    Row(
        "marking:sheet",
        "GET",
        answers(200, "lecturer cover second_marker", 404, "other_lecturer", rest=403),
        second,
    ),
    Row("marking:give", "POST", answers(302, TEACHES, 404, NOT_HERE, rest=403), learner, MARK),
    Row(
        "marking:give",
        "POST",
        answers(200, TEACHES, 404, NOT_HERE, rest=403, anonymous=401),
        learner,
        MARK,
        {"accept": "application/json"},
    ),
    Row(
        "marking:undo",
        "POST",
        answers(302, TEACHES, 404, NOT_HERE, rest=403),
        full,
        {"place": "texture", "key": str(KEY)},
    ),
    Row("marking:submit", "POST", answers(302, TEACHES, 404, NOT_HERE, rest=403), full),
    Row("marking:take_back", "POST", answers(302, TEACHES, 404, NOT_HERE, rest=403), submitted),
    Row(
        "marking:card",
        "GET",
        answers(200, "lecturer cover verifier manager", 404, NOT_HERE, rest=403),
        submitted,
    ),
    Row(
        "marking:agree",
        "POST",
        answers(302, "lecturer", 404, "other_lecturer cover", rest=403),
        apart,
        {"take": "second", "reason": "Both saw the greasy crumb."},
    ),
)
