"""Who may fix things in a lesson's time plan, and who may look at what is fixed."""

from django.http import Http404

from curriculum.people.models import User
from curriculum.people.roles import MANAGER, VERIFIER
from kitchen.lessons.access import lesson_to_teach, taught_or_any, teaches
from kitchen.lessons.models import Lesson
from kitchen.timeplan.pins.models import Pin

__all__ = ["lesson_to_fix", "lesson_to_read", "pins_to_let_go", "teaches"]

#: Who reads what is fixed in any lesson.
LOOK_OVER = frozenset({VERIFIER, MANAGER})

lesson_to_fix = lesson_to_teach


def lesson_to_read(by: User, code: str) -> Lesson:
    """A lesson of one's own or covered, or any for verifier and manager; others' 404, other roles 403."""
    return taught_or_any(by, code, LOOK_OVER)


def pins_to_let_go(lesson: Lesson, numbers: list[int]) -> list[Pin]:
    """What of these numbers is fixed in this lesson; one of another lesson is 404."""
    rows = list(Pin.objects.filter(lesson=lesson, pk__in=numbers))
    if Pin.objects.filter(pk__in=numbers).exclude(lesson=lesson).exists():
        raise Http404("Not fixed in this lesson.")
    return rows
