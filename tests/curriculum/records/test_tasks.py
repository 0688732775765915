"""Long work: taken once, beaten, stopped, and taken again after a worker died."""

from datetime import timedelta

import pytest
from django.utils import timezone

from curriculum.people.models import College, User
from curriculum.records.models import Job
from curriculum.records.tasks import TRIES_AT_MOST, ask_for, ask_to_stop, beat, fail, finish, take_next

pytestmark = pytest.mark.django_db


@pytest.fixture
def person():
    College.objects.create(name="Harrowmere", short_name="Harrowmere")
    return User.objects.create_user("odile", "Odile Farthingbrook")


def test_a_job_is_taken_once(person):
    asked = ask_for(kind="sum", inputs={"n": 1}, by=person)
    assert take_next(kinds=("sum",)) == asked
    assert take_next(kinds=("sum",)) is None


def test_a_worker_takes_only_kinds_it_knows(person):
    ask_for(kind="sum", inputs={}, by=person)
    assert take_next(kinds=("other",)) is None


def test_the_same_key_asks_once(person):
    first = ask_for(kind="sum", inputs={"n": 1}, by=person)
    assert ask_for(kind="sum", inputs={"n": 1}, by=person, key=first.key) == first
    assert Job.objects.count() == 1


def test_a_dead_workers_job_is_taken_again_when_its_lease_is_over(person):
    ask_for(kind="sum", inputs={}, by=person)
    job = take_next(kinds=("sum",))
    Job.objects.filter(pk=job.pk).update(lease_until=timezone.now() - timedelta(seconds=1))
    again = take_next(kinds=("sum",))
    assert again == job
    assert again.tries == 2


def test_a_job_that_keeps_killing_its_worker_fails_in_words(person):
    job = ask_for(kind="sum", inputs={}, by=person)
    Job.objects.filter(pk=job.pk).update(tries=TRIES_AT_MOST)
    job = take_next(kinds=("sum",))
    assert job.state == Job.State.FAILED
    assert "three times" in job.answer["words"]


def test_a_beat_tells_the_progress_and_learns_of_a_stop(person):
    ask_for(kind="sum", inputs={}, by=person)
    job = take_next(kinds=("sum",))
    assert beat(job=job, progress={"best": 130}) is True
    ask_to_stop(job=job)
    assert beat(job=job) is False
    job.refresh_from_db()
    assert job.progress == {"best": 130}


def test_a_waiting_job_is_stopped_at_once(person):
    job = ask_for(kind="sum", inputs={}, by=person)
    ask_to_stop(job=job)
    job.refresh_from_db()
    assert job.state == Job.State.STOPPED
    assert take_next(kinds=("sum",)) is None


def test_work_ends_with_an_answer_or_with_the_reason(person):
    job = finish(job=ask_for(kind="sum", inputs={}, by=person), answer={"n": 2})
    assert (job.state, job.answer) == (Job.State.DONE, {"n": 2})
    job = fail(job=ask_for(kind="sum", inputs={}, by=person), words="No oven.")
    assert (job.state, job.answer) == (Job.State.FAILED, {"words": "No oven."})


def test_a_worker_that_lost_its_lease_changes_nothing_any_more(person):
    ask_for(kind="sum", inputs={}, by=person)
    slow = take_next(kinds=("sum",))
    Job.objects.filter(pk=slow.pk).update(lease_until=timezone.now() - timedelta(seconds=1))
    quick = take_next(kinds=("sum",))
    assert beat(job=slow) is False and beat(job=quick) is True
    assert fail(job=slow, words="Too late.").state == Job.State.RUNNING
    finish(job=quick, answer={"n": 2})
    finish(job=slow, answer={"n": 1})
    assert Job.objects.get(pk=quick.pk).answer == {"n": 2}
