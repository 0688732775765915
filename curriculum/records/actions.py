"""What may be sent twice is done once; codes are drawn; reads of health data are noted."""

import hashlib
import json
import secrets
from collections.abc import Callable, Iterable
from datetime import date
from uuid import UUID, uuid4, uuid5

from django.db import IntegrityError, connection, models, transaction

from curriculum.codes import LENGTH, code_of
from curriculum.errors import RuleBroken
from curriculum.people.models import Student, User
from curriculum.records.models import HealthRead, Receipt


def fingerprint_of(said: dict) -> str:
    """The hash of what was asked, so that one key cannot stand for two requests."""
    return hashlib.sha256(json.dumps(said, sort_keys=True, default=str).encode()).hexdigest()


def own_key(key: UUID | None, *parts: object) -> UUID:
    """The key of one row of several that one request writes; drawn where the request has none."""
    return uuid4() if key is None else uuid5(key, ":".join(map(str, parts)))


def answer_given(*, key: UUID, action: str, fingerprint: str) -> dict | None:
    """The answer that this key was given before, or None. RuleBroken when it asked something else."""
    receipt = Receipt.objects.filter(key=key).first()
    if receipt is None:
        return None
    if (receipt.action, receipt.fingerprint) != (action, fingerprint):
        raise RuleBroken(
            "key_used_for_something_else",
            "This form was already sent with other contents. Open the page again and send it once more.",
        )
    return receipt.answer


def once(*, key: UUID | None, action: str, by: User, said: dict, do: Callable[[], dict]) -> dict:
    """Do something once for a key: a second request with the same contents gets the first answer.

    ``said`` is what was asked (plain JSON), ``do`` does it and returns a JSON answer.
    Without a key it is simply done. Both the deed and its receipt stand in one transaction.
    """
    if key is None:
        with transaction.atomic():
            return do()
    fingerprint = fingerprint_of(said)
    try:
        with transaction.atomic():
            _wait_for_the_same_key(key)
            before = answer_given(key=key, action=action, fingerprint=fingerprint)
            if before is not None:
                return before
            answer = do()
            Receipt.objects.create(key=key, action=action, by=by, fingerprint=fingerprint, answer=answer)
            return answer
    except IntegrityError:
        before = answer_given(key=key, action=action, fingerprint=fingerprint)
        if before is None:
            raise
        return before


def _wait_for_the_same_key(key: UUID) -> None:
    """Whoever sends the same key at the same moment waits here, and then finds the receipt.

    Without it the second would judge a world that the first is about to change, and refuse what
    was done. On SQLite every transaction already waits for the one before it.
    """
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [key.int % 2**63])


def draw_code(model: type[models.Model]) -> str:
    """A code for paper that no row of the model has yet."""
    while True:
        code = code_of([secrets.randbelow(1 << 30) for _ in range(LENGTH)])
        if not model.objects.filter(code=code).exists():
            return code


def note_health_read(*, reader: User, students: Iterable[Student], page: str, day: date) -> None:
    """Note that somebody read other persons' health data: one row a reader, learner, page and day."""
    HealthRead.objects.bulk_create(
        [
            HealthRead(reader=reader, student=student, page=page, day=day)
            for student in students
            if student.user_id != reader.pk
        ],
        ignore_conflicts=True,
    )
