"""Long work outside the request: a row that says who asked, how far it is, what came out.

A worker takes a job with a lease and beats while it works; a worker that dies lets its
lease run out, and another takes the job again. Whoever asked may ask it to stop: the
worker learns of it at its next beat and keeps the best answer so far.
"""

import uuid
from datetime import timedelta

from django.db import connection, transaction
from django.db.models import Q
from django.utils import timezone

from curriculum.people.models import User
from curriculum.records.models import Job

#: A worker that has not beaten for this long is taken for dead. A setting of ours, no source.
LEASE_SECONDS = 60
#: A job that killed its worker so many times is not tried again.
TRIES_AT_MOST = 3


@transaction.atomic
def ask_for(*, kind: str, inputs: dict, by: User, key: uuid.UUID | None = None) -> Job:
    """Ask for long work; the same key gives the same job."""
    job, _ = Job.objects.get_or_create(
        key=key or uuid.uuid4(), defaults={"kind": kind, "inputs": inputs, "by": by}
    )
    return job


@transaction.atomic
def take_next(*, kinds: tuple[str, ...]) -> Job | None:
    """The oldest job that nobody works on, now leased to the caller; None when there is none."""
    free = Q(state=Job.State.WAITING) | Q(state=Job.State.RUNNING, lease_until__lt=timezone.now())
    rows = Job.objects.filter(free, kind__in=kinds).order_by("at")
    if connection.features.has_select_for_update_skip_locked:
        rows = rows.select_for_update(skip_locked=True)
    job = rows.first()
    if job is None:
        return None
    if job.tries >= TRIES_AT_MOST:
        job.state = Job.State.FAILED
        job.answer = {"words": "The work was begun three times and never came to an end."}
    else:
        job.state = Job.State.RUNNING
        job.tries += 1
        job.beat_at = timezone.now()
        job.lease_until = job.beat_at + timedelta(seconds=LEASE_SECONDS)
    job.save()
    return job


def beat(*, job: Job, progress: dict | None = None) -> bool:
    """Say that the work goes on; False when somebody asked it to stop, or another worker has it now."""
    now = timezone.now()
    said = {"beat_at": now, "lease_until": now + timedelta(seconds=LEASE_SECONDS)}
    if progress is not None:
        said["progress"] = progress
    Job.objects.filter(pk=job.pk, state=Job.State.RUNNING, tries=job.tries).update(**said)
    return Job.objects.filter(pk=job.pk, tries=job.tries, stop_asked=False).exists()


@transaction.atomic
def finish(*, job: Job, answer: dict, stopped: bool = False) -> Job:
    """The work is done, or was stopped with what it had."""
    return _end(job, Job.State.STOPPED if stopped else Job.State.DONE, answer)


@transaction.atomic
def fail(*, job: Job, words: str) -> Job:
    """The work could not be done; says why."""
    return _end(job, Job.State.FAILED, {"words": words})


def _end(job: Job, state: str, answer: dict) -> Job:
    """Keep how it ended, unless the lease ran out and the work is another worker's now, or ended before."""
    open_states = (Job.State.WAITING, Job.State.RUNNING)
    rows = Job.objects.filter(pk=job.pk, tries=job.tries, state__in=open_states)
    if rows.update(state=state, answer=answer):
        job.state, job.answer = state, answer
    else:
        job.refresh_from_db()
    return job


@transaction.atomic
def ask_to_stop(*, job: Job) -> None:
    """Ask for a stop; a job that nobody has taken yet is stopped at once."""
    changed = Job.objects.filter(pk=job.pk, state=Job.State.WAITING).update(
        state=Job.State.STOPPED, stop_asked=True
    )
    if not changed:
        Job.objects.filter(pk=job.pk).update(stop_asked=True)
