"""Who may see which prints of a lesson are in force, and who may look a print up by its code."""

from django.http import Http404

from curriculum.people.access import roles_of
from curriculum.people.models import User
from curriculum.people.roles import KITCHEN_HANDS, STAFF
from kitchen.lessons.access import lesson_to_supply, place_of_student, teaches
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.models import Print

__all__ = ["lesson_to_supply", "may_print", "print_for"]


def may_print(by: User, lesson: Lesson) -> bool:
    """Whether the person prints the papers of a lesson: stores and technician, its lecturer and cover."""
    return bool(roles_of(by) & KITCHEN_HANDS) or teaches(by, lesson)


def print_for(by: User, code: str) -> Print:
    """A print by its code: for staff, and for a learner who stands at a bench of its lesson.

    Not there and not yours are both 404, other guests are 403.
    """
    row = (
        Print.objects.filter(code=code.upper()).select_related("by", "lesson__room", "lesson__group").first()
    )
    if not roles_of(by) & STAFF:
        place_of_student(by, row.lesson.code if row else "")
    if row is None:
        raise Http404("No such print.")
    return row
