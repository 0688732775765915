"""Techniques read as calculations and pages need them."""

from collections.abc import Iterable

from django.db.models import Prefetch, Q

from curriculum.techniques.entries import FaultEntry, TechniqueEntry
from curriculum.techniques.models import Fault, Prerequisite, Technique


def techniques_known(codes: Iterable[str]) -> dict[str, TechniqueEntry]:
    """These techniques and what each needs first, by code, with the faults in use. Three queries."""
    wanted = list(codes)
    rows = (
        Technique.objects.filter(Q(code__in=wanted) | Q(unlocks__technique__code__in=wanted))
        .distinct()
        .prefetch_related(
            Prefetch("faults", Fault.objects.filter(retired_at=None)),
            Prefetch("prerequisites", Prerequisite.objects.select_related("needs").order_by("needs__code")),
        )
    )
    return {row.code: _entry(row) for row in rows}


def _entry(row: Technique) -> TechniqueEntry:
    faults = (FaultEntry(each.code, each.seen, each.cause, each.remedy) for each in row.faults.all())
    return TechniqueEntry(
        code=row.code,
        name=row.name,
        level=row.level,
        cue=row.cue,
        needs=tuple(each.needs.code for each in row.prerequisites.all()),
        faults=tuple(faults),
        source=row.source,
        supervised=row.supervised,
        outside_dishes=row.outside_dishes,
    )
