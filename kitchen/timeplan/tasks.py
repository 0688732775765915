"""The long search for a lesson's time plan, done by a worker outside the request.

``manage.py work`` takes the job; the page shows how far it is. Every better draft is kept
with the beat, so that stopping keeps the best one.
"""

from curriculum.records.models import Job
from curriculum.records.tasks import beat, fail, finish
from kitchen.lessons.models import Lesson
from kitchen.timeplan.drafts import Draft, better_drafts, kept_draft
from kitchen.timeplan.queries import lesson_data


def solve_job(job: Job) -> None:
    """Plan the lesson of the job: better and better drafts until proved, stopped or tired."""
    lesson = Lesson.objects.filter(pk=job.inputs["lesson"]).select_related("room", "group").first()
    if lesson is None:
        fail(job=job, words="The lesson is not there any more.")
        return
    best, goes_on = None, True
    for draft in better_drafts(lesson_data(lesson)):
        best = draft
        goes_on = beat(job=job, progress=progress_of(draft))
        if not goes_on:
            break
    if best is None:
        fail(job=job, words="Nothing was found.")
    elif best.plan is None:
        fail(job=job, words=" ".join(best.reasons) or "Nothing was found.")
    else:
        finish(job=job, answer=kept_draft(best), stopped=not goes_on)


def progress_of(draft: Draft) -> dict:
    """What is known so far, for the page."""
    if draft.plan is None:
        return {"words": " ".join(draft.reasons)}
    return {
        "finish_minutes": draft.plan.finish_minutes,
        "bound_minutes": draft.plan.bound_minutes,
        "usable_minutes": draft.usable_minutes,
    }
