"""A print is noted when its file is handed out."""

from curriculum.people.models import User
from curriculum.records.actions import draw_code
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.force import Issue
from kitchen.lessons.papers.models import Print


def note_print(*, lesson: Lesson, issue: Issue, by: User) -> Print:
    """Note one print of one paper, with the code that stands on it and what stood on its parts."""
    return Print.objects.create(
        lesson=lesson,
        code=draw_code(Print),
        paper=issue.paper,
        of_number=issue.number,
        of_at=issue.at,
        parts={part: dict(facets) for part, facets in issue.parts.items()},
        by=by,
    )
