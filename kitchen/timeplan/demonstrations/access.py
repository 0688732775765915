"""What is shown in a lesson: fetch or refuse."""

from django.http import Http404

from kitchen.lessons.models import Lesson
from kitchen.timeplan.demonstrations.queries import Shows, accepted_demonstration, shows_of
from kitchen.timeplan.models import DemonstrationPlan


def dish_to_show(lesson: Lesson) -> Shows:
    """The dish of a lesson's demonstration; 404 when nothing is cooked in it."""
    shows = shows_of(lesson)
    if shows is None:
        raise Http404("Nothing is cooked in this lesson.")
    return shows


def standing_plan(lesson: Lesson) -> DemonstrationPlan:
    """The accepted demonstration; 404 without one."""
    row = accepted_demonstration(lesson)
    if row is None:
        raise Http404("No demonstration is accepted for this lesson.")
    return row
