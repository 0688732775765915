"""Whose order of work is whose: a learner's own, the lesson's lecturer, and who looks over marking."""

from django.http import Http404

from curriculum.people.models import User
from curriculum.people.roles import MANAGER, SECOND_MARKER, VERIFIER
from kitchen.lessons.access import lesson_to_teach, place_of_student, taught_or_any, teaches
from kitchen.lessons.models import Lesson, PlaceLearner
from kitchen.timeplan.own_order.queries import places_of_class

__all__ = ["lesson_to_read", "lesson_to_teach", "own_place", "place_in", "teaches"]

#: Who reads every class's orders: they judge marking, or answer for the programme.
LOOK_OVER = frozenset({SECOND_MARKER, VERIFIER, MANAGER})


def own_place(by: User, code: str) -> PlaceLearner:
    """The learner's own place in the lesson; anybody else's is 404, staff 403."""
    return place_of_student(by, code)


def lesson_to_read(by: User, code: str) -> Lesson:
    """A lesson whose learners' orders the person may read; another lecturer's is 404, other roles 403."""
    return taught_or_any(by, code, LOOK_OVER)


def place_in(lesson: Lesson, college_number: str) -> PlaceLearner:
    """The place of one learner of the lesson, or 404."""
    rows = places_of_class(lesson)
    row = next((each for each in rows if each.student.college_number == college_number), None)
    if row is None:
        raise Http404("No such learner in this lesson.")
    return row
