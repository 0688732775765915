"""Who says what became of the dishes: lecturer and cover of the lesson, stores and technician."""

from django.http import Http404

from curriculum.people.models import User
from kitchen.lessons.access import lesson_to_supply
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Kit, KitSet


def lesson_cooked(by: User, code: str) -> Lesson:
    """A lesson whose dishes the person may speak of."""
    return lesson_to_supply(by, code)


def shared_kit_of(by: User, lesson: str, code: str) -> tuple[Lesson, Kit]:
    """A kit without a bench of such a lesson; 404 for any other."""
    found = lesson_cooked(by, lesson)
    kit = Kit.objects.filter(
        kit_set__lesson=found, kit_set__state=KitSet.State.ACCEPTED, place=None, code=code
    ).first()
    if kit is None:
        raise Http404("No such kit.")
    return found, kit
