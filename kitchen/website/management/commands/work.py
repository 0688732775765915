"""``manage.py work``: does the long work that people asked for, one job after another.

As many workers as wanted, on as many machines: each takes a job with a lease. Ends by
itself with ``--until-empty`` (tests, one-off runs), else runs until it is stopped. When no
job waits it reckons, once on each day of the college, what the recipe book keeps of its recipes.
"""

import time
import traceback
from collections.abc import Callable
from datetime import date

from django.core.management.base import BaseCommand, CommandParser
from django.db import close_old_connections

from curriculum.errors import RuleBroken
from curriculum.people.models import College
from curriculum.people.queries import today_at
from curriculum.recipes.reckoning.tasks import reckon_when_due
from curriculum.records.models import Job
from curriculum.records.tasks import fail, take_next
from kitchen.timeplan.tasks import solve_job

#: kind of job -> the function that does it and finishes it
KINDS: dict[str, Callable[[Job], None]] = {"time_plan": solve_job}
PAUSE_SECONDS = 1.0


def do_one() -> bool:
    """Take one job and do it; False when none waits."""
    job = take_next(kinds=tuple(KINDS))
    if job is None:
        return False
    if job.state == Job.State.RUNNING:
        try:
            KINDS[job.kind](job)
        except RuleBroken as refused:
            fail(job=job, words=refused.message)
        except Exception:
            traceback.print_exc()
            fail(job=job, words="The work stopped on a fault of ours. It is written in the log.")
    return True


class Command(BaseCommand):
    """Work until stopped."""

    help = "Do the long work that people asked for: time plans. Once a day, the figures of the recipes."
    _reckoned_on: date | None = None

    def add_arguments(self, parser: CommandParser) -> None:
        """``--until-empty`` ends when no job waits."""
        parser.add_argument("--until-empty", action="store_true")

    def handle(self, *args: object, **options: object) -> None:
        """Take jobs as they come."""
        while True:
            close_old_connections()
            if do_one():
                continue
            self._daily()
            if options["until_empty"]:
                return
            time.sleep(PAUSE_SECONDS)

    def _daily(self) -> None:
        """What nobody asks for and each day of the college wants once: the figures of the book."""
        college = College.objects.first()
        today = today_at(college) if college is not None else None
        if self._reckoned_on != today:
            reckon_when_due()
            self._reckoned_on = today
