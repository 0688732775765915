"""Who may see which prints of a lesson are in force, print again, and look a print up by its code."""

from kitchen.lessons.papers.actions import note_print
from kitchen.lessons.papers.force import Issue
from kitchen.stores.requisitions.actions import submit_requisition
from tests.access_matrix import Row, answers

READERS = answers(200, "lecturer cover stores technician", 404, "other_lecturer", rest=403)
PRINTERS = answers(302, "lecturer cover stores technician", 404, "other_lecturer", rest=403)


def lesson(cast):
    return {"lesson": cast.lesson.code}


def asked(cast):
    submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    return lesson(cast)


def a_print(cast):
    issue = Issue("requisition", 1, None, {"": {"foods": "0"}})
    return {"code": note_print(lesson=cast.lesson, issue=issue, by=cast.stores).code}


ROWS = (
    Row("papers:papers", "GET", READERS, asked),
    Row("papers:again", "POST", PRINTERS, lesson),
    Row("papers:print", "GET", answers(404, "other_student", 403, "external", rest=200), a_print),
    Row("stores:requisition_pdf", "GET", READERS, asked),
)
