"""The long search: kept with every beat, stopped when asked, done once."""

import pytest

from curriculum.records.models import Job
from curriculum.records.tasks import ask_to_stop, take_next
from kitchen.lessons.models import Lesson
from kitchen.timeplan.actions import plan_longer
from kitchen.timeplan.drafts import draft_of
from kitchen.timeplan.queries import KIND, lesson_data, plan_page
from kitchen.timeplan.tasks import progress_of, solve_job
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def job(cast):
    plan_longer(lesson=cast.lesson, by=cast.lecturer)
    return take_next(kinds=(KIND,))


def test_the_search_ends_with_a_draft_that_the_page_shows(cast, job):
    solve_job(job)
    job.refresh_from_db()
    assert job.state == Job.State.DONE
    assert job.progress["finish_minutes"] >= job.progress["bound_minutes"]
    page = plan_page(cast.lesson)
    assert page.running is None
    assert page.draft.basis == job.answer["basis"]
    assert page.draft.plan.finish_minutes == job.progress["finish_minutes"]
    assert all(led.searched for led in page.draft.prices)


def test_a_search_that_is_stopped_keeps_its_best(job):
    ask_to_stop(job=job)
    solve_job(job)
    job.refresh_from_db()
    assert job.state == Job.State.STOPPED
    assert job.answer["plan"]["finish_minutes"] > 0


def test_a_draft_of_a_lesson_that_has_changed_is_not_shown(cast, job):
    solve_job(job)
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    job.refresh_from_db()
    assert plan_page(cast.lesson).draft.basis != job.answer["basis"]


def test_a_lesson_that_is_gone_ends_the_search_in_words(job):
    job.inputs = {"lesson": Lesson.objects.count() + 900}
    solve_job(job)
    job.refresh_from_db()
    assert (job.state, job.answer["words"]) == (Job.State.FAILED, "The lesson is not there any more.")


def test_progress_says_best_bound_and_slot(cast):
    progress = progress_of(draft_of(lesson_data(cast.lesson)))
    assert set(progress) == {"finish_minutes", "bound_minutes", "usable_minutes"}
