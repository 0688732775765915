"""Who may open a running class, who may tap in it, who may show it to the class."""

from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER, TECHNICIAN
from kitchen.lessons.access import found, lesson_for, lesson_to_teach, teaches
from kitchen.lessons.models import Lesson
from kitchen.timeplan.day.queries import InProgress

__all__ = ["lesson_for", "lesson_on_the_day", "lesson_to_teach", "may"]


def lesson_on_the_day(by: User, code: str) -> Lesson:
    """A lesson whose class its lecturer, its cover or a technician may watch."""
    demand_role(by, LECTURER, TECHNICIAN)
    lesson = found(code)
    if TECHNICIAN not in roles_of(by) and not teaches(by, lesson):
        raise Http404("Not your lesson.")
    return lesson


def demand_bench(progress: InProgress, bench: str) -> None:
    """Http404 for a bench that is not in the plan of this class."""
    if all(each.name != bench for each in progress.plan.benches):
        raise Http404("No such bench in this plan.")


def may(by: User, lesson: Lesson) -> dict[str, bool]:
    """Whether the person taps, or only looks."""
    return {"tap": teaches(by, lesson)}
