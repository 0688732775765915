"""Writing techniques, what they need first and their faults into the list."""

from collections.abc import Iterable

from django.db import transaction

from curriculum.people.models import User
from curriculum.techniques.entries import TechniqueEntry
from curriculum.techniques.models import Fault, Prerequisite, Technique


@transaction.atomic
def add_techniques(*, entries: Iterable[TechniqueEntry], by: User) -> list[Technique]:
    """Add several techniques at once, in any order; what one needs may be among them.

    KeyError when one needs a technique that is neither added nor in the list.
    """
    entries = list(entries)
    made = Technique.objects.bulk_create(
        Technique(
            code=entry.code,
            name=entry.name,
            level=entry.level,
            cue=entry.cue,
            source=entry.source,
            supervised=entry.supervised,
            outside_dishes=entry.outside_dishes,
        )
        for entry in entries
    )
    by_code = {technique.code: technique for technique in Technique.objects.all()}
    Prerequisite.objects.bulk_create(
        Prerequisite(technique=by_code[entry.code], needs=by_code[need])
        for entry in entries
        for need in entry.needs
    )
    Fault.objects.bulk_create(
        Fault(
            technique=by_code[entry.code],
            code=fault.code,
            seen=fault.seen,
            cause=fault.cause,
            remedy=fault.remedy,
        )
        for entry in entries
        for fault in entry.faults
    )
    return made
