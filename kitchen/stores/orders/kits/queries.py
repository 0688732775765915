"""What kits say of a week: what has left for them, what is still to come, what stands on trays."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from datetime import date

from django.db.models import F, OuterRef, Subquery, Sum
from django.db.models.functions import Coalesce

from curriculum.recipes.models import Line
from kitchen.lessons.models import Lesson
from kitchen.lessons.queries import places_taken
from kitchen.stores.models import Kit, KitLine, KitSet, MadePart, Movement, Requisition
from kitchen.stores.orders.week import Need
from kitchen.stores.weighout.managers import not_left


def still_to_come(first: date, last: date) -> dict[int, list[Need]]:
    """What kits that left short are still to get, for the lessons (keys) of these days. One query.

    Their weighed trays serve themselves; a free-from kit takes reserved packs as it did before.
    """
    issues = Movement.objects.filter(kit_line=OuterRef("pk"), kind=Movement.Kind.ISSUE)
    gone = issues.order_by().values("kit_line").annotate(sum=Sum("milligrams")).values("sum")
    rows = (
        KitLine.objects.filter(
            kit__kit_set__state=KitSet.State.ACCEPTED,
            kit__kit_set__issued_at__isnull=False,
            kit__kit_set__lesson__on__range=(first, last),
            kit__kit_set__lesson__requisitions__state=Requisition.State.APPROVED,
        )
        .exclude(kit__kit_set__lesson__state=Lesson.State.CANCELLED)
        .exclude(kit__kind=Kit.Kind.SUPPLEMENTARY)
        .annotate(left=F("stock_milligrams") + Coalesce(Subquery(gone), 0))
        .filter(left__gt=0)
        .order_by("pk")
    )
    lesson, free_from = "kit__kit_set__lesson", "kit__version__sheet__free_from"
    said = (lesson, f"{lesson}__code", f"{lesson}__on", "food__code", free_from, "left")
    sums: Counter[tuple[int, str, date, str, bool]] = Counter()
    for key, code, on, food, left_out, left in rows.values_list(*said):
        sums[key, code, on, food, bool(left_out)] += left
    found: dict[int, list[Need]] = defaultdict(list)
    for (key, code, on, food, reserved), milligrams in sums.items():
        found[key].append(Need(code, on, food, milligrams, reserved))
    return found


def issued_of(lessons: Iterable[int]) -> dict[tuple[int, str], int]:
    """What has left for these lessons, by lesson and food: in kits, and into their bowls. Two queries."""
    lessons = list(lessons)
    found: Counter[tuple[int, str]] = Counter()
    moves = Movement.objects.filter(kit_line__kit__kit_set__lesson__in=lessons).order_by()
    rows = moves.values_list("kit_line__kit__kit_set__lesson", "kit_line__food__code")
    for lesson, food, total in rows.annotate(total=Sum("milligrams")):
        found[lesson, food] -= total
    parts = MadePart.objects.filter(made__made_in__in=lessons).order_by()
    bowls = parts.values_list("made__made_in", "movement__lot__food__code")
    for lesson, food, total in bowls.annotate(total=Sum("movement__milligrams")):
        found[lesson, food] -= total
    return found


def takes_reserved(lessons: Iterable[int]) -> set[tuple[int, str]]:
    """Lessons and foods of which a free-from kit takes some: reserved packs serve them. Two queries."""
    rows = places_taken().filter(shift__lesson__in=list(lessons))
    versions: dict[int, set[int]] = defaultdict(set)
    for lesson, version, free_from in rows.values_list(
        "shift__lesson", "version", "version__sheet__free_from"
    ):
        if free_from:
            versions[version].add(lesson)
    lines = Line.objects.filter(component__version__in=[*versions, 0])
    return {
        (lesson, food)
        for version, *foods in lines.values_list("component__version", "food__code", "food__made_from__code")
        for lesson in versions[version]
        for food in foods
        if food
    }


def on_other_trays(lots: Iterable[int], asking: Iterable[int]) -> dict[int, int]:
    """What stands weighed on trays of lessons other than those whose need is counted, by lot. One query.

    Trays of kits that were made again count whosever they are: what stands on them is in no pack.
    """
    counted = KitSet.objects.filter(lesson__in=[*asking, 0], state=KitSet.State.ACCEPTED)
    rows = not_left().filter(lot__in=[*lots, 0]).exclude(weighing__kit_line__kit__kit_set__in=counted)
    return dict(rows.values("lot").annotate(sum=Sum("milligrams")).values_list("lot", "sum"))
