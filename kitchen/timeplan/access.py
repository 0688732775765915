"""Who may look at a time plan, who may make one, and whose strip is whose."""

from django.http import Http404

from curriculum.people.access import roles_of
from curriculum.people.models import User
from curriculum.records.models import Job
from kitchen.lessons.access import lesson_for, lesson_to_change, place_of_student, teaches
from kitchen.lessons.access import lesson_to_teach as lesson_to_plan
from kitchen.lessons.models import Lesson, PlaceLearner
from kitchen.timeplan.pins.access import LOOK_OVER
from kitchen.timeplan.queries import KIND

__all__ = ["job_of", "lesson_for", "lesson_to_change", "lesson_to_plan", "may", "own_place"]


def own_place(by: User, code: str) -> PlaceLearner:
    """The learner's own place in the lesson; anybody else's is 404, staff 403."""
    return place_of_student(by, code)


def may(by: User, lesson: Lesson) -> dict[str, bool]:
    """What the person may do on the page: plan and accept (lecturer, cover), change, read what is fixed."""
    own = teaches(by, lesson)
    return {
        "plan": own,
        "change": lesson.lecturer_id == by.pk and own,
        "read_fixed": own or bool(LOOK_OVER & roles_of(by)),
    }


def job_of(lesson: Lesson, key: str) -> Job:
    """Long work on this lesson by its key, or 404."""
    for job in Job.objects.filter(kind=KIND, inputs__lesson=lesson.pk):
        if str(job.key) == key:
            return job
    raise Http404("No such work.")
