"""Who reads schemes, who writes the brief of a lesson, who checks it: fetch or refuse."""

from django.http import Http404

from assessments.schemes.models import SchemeVersion
from assessments.schemes.queries import version_of
from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import EXTERNAL, LECTURER, MANAGER, SECOND_MARKER, VERIFIER
from kitchen.lessons.access import found
from kitchen.lessons.models import Lesson

READERS = (LECTURER, SECOND_MARKER, VERIFIER, MANAGER, EXTERNAL)
CHECKERS = (LECTURER, SECOND_MARKER, VERIFIER)


def demand_reader(by: User) -> None:
    """Schemes are read by whoever marks, verifies or leads."""
    demand_role(by, *READERS)


def scheme_for(by: User, code: str) -> SchemeVersion:
    """The newest version of a scheme, or 404."""
    demand_reader(by)
    version = version_of(code)
    if version is None:
        raise Http404("No such scheme.")
    return version


def brief_lesson_for(by: User, code: str) -> Lesson:
    """A lesson whose brief the person may read."""
    demand_role(by, LECTURER, SECOND_MARKER, VERIFIER, MANAGER)
    return found(code)


def may_write_brief(by: User, lesson: Lesson) -> bool:
    """Only the lesson's own lecturer writes its brief."""
    return LECTURER in roles_of(by) and lesson.lecturer_id == by.pk


def may_check_brief(by: User, lesson: Lesson) -> bool:
    """Whoever marks or verifies, other than the lesson's lecturer and cover, checks the brief."""
    return bool(roles_of(by) & set(CHECKERS)) and by.pk not in (lesson.lecturer_id, lesson.cover_id)


def lesson_to_brief(by: User, code: str) -> Lesson:
    """A lesson whose brief the person writes; another lecturer's lesson is 404."""
    demand_role(by, LECTURER)
    lesson = found(code)
    if not may_write_brief(by, lesson):
        raise Http404("Not your lesson.")
    return lesson


def lesson_to_check(by: User, code: str) -> Lesson:
    """A lesson whose brief the person may check. Its own lecturer is refused in words by the action."""
    demand_role(by, *CHECKERS)
    return found(code)
