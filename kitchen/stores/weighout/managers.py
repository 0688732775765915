"""What stands weighed and out of which lots, for whoever allocates lots or shows trays."""

from collections import defaultdict
from collections.abc import Iterable

from django.db.models import Exists, F, OuterRef, QuerySet, Subquery, Sum

from kitchen.lessons.models import Lesson
from kitchen.stores.models import KitSet, Movement, Weighing
from kitchen.stores.weighout.models import WeighedFrom


def standing_from() -> QuerySet[WeighedFrom]:
    """The rows of weights that stand: the last word on their line, and not taken back."""
    last = Weighing.objects.filter(kit_line=OuterRef("weighing__kit_line")).order_by("-number")
    rows = WeighedFrom.objects.annotate(last=Subquery(last.values("pk")[:1]))
    return rows.filter(weighing=F("last"), weighing__undone=False)


def not_left() -> QuerySet[WeighedFrom]:
    """Those of them that have not left the stores: the food stands on a tray, the book has it in its lot."""
    issues = Movement.objects.filter(
        kit_line=OuterRef("weighing__kit_line"), kind__in=[Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY]
    )
    return standing_from().exclude(Exists(issues))


def weighed_from(kit_set: KitSet) -> dict[int, tuple[tuple[str, int], ...]]:
    """The lots that each line stands weighed from, with milligrams, by the key of the line. One query."""
    rows = standing_from().filter(weighing__kit_line__kit__kit_set=kit_set).order_by("pk")
    found: dict[int, tuple[tuple[str, int], ...]] = defaultdict(tuple)
    for line, lot, milligrams in rows.values_list("weighing__kit_line", "lot__code", "milligrams"):
        found[line] += ((lot, milligrams),)
    return found


def set_aside(lots: Iterable[int], lesson: Lesson | None = None) -> dict[int, int]:
    """What stands weighed out of these lots and has not left, by lot; of other lessons. One query.

    Weights on trays of this lesson that were made again count too: they are in no lot either.
    """
    rows = not_left().filter(lot__in=[*lots, 0])  # asked also for no lot, so that pages always ask as often
    if lesson is not None:
        standing = KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED)
        rows = rows.exclude(weighing__kit_line__kit__kit_set__in=standing)
    return dict(rows.values("lot").annotate(sum=Sum("milligrams")).values_list("lot", "sum"))
