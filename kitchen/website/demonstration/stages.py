"""The stages of the demonstration: each has a key of its own, the same at every start.

An action that is given the key leaves a receipt under it. A second start, and one that
goes on where an interrupted start ended, sees the receipt and leaves the stage alone, also
when people have gone on working in the meantime.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from uuid import UUID, uuid5

from django.db import transaction

from curriculum.people.models import College
from curriculum.records.models import Receipt

#: The room of names in which the keys are drawn; drawn once, at random.
KEYS = UUID("6d1f3a52-5d0e-4b52-9c3e-0d3f0a9b7f11")


def key(*names: object) -> UUID:
    """The key under which a stage is done once: ``key("main-1", "places")``."""
    return uuid5(KEYS, "/".join(str(name) for name in names))


def answer_of(*names: object) -> dict | None:
    """What the stage answered when it was done; None when it still has to be done."""
    return Receipt.objects.filter(key=key(*names)).values_list("answer", flat=True).first()


@contextmanager
def on_day(day: date) -> Iterator[None]:
    """The day of the college while something of that day is done, all of it or nothing."""
    with transaction.atomic():
        college = College.objects.get(pk=1)
        shown = college.shown_today
        College.objects.filter(pk=1).update(shown_today=day)
        yield
        College.objects.filter(pk=1).update(shown_today=shown)
