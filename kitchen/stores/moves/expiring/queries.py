"""What the page of lots that end soon reads; the stores person's first page shows the same rows."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

from django.utils import timezone

from curriculum.recipes.models import Line
from kitchen.lessons.models import Dish, Lesson
from kitchen.lessons.queries import places_taken
from kitchen.stores.lots.managers import last_on
from kitchen.stores.lots.queries import date_words, on_hand_words
from kitchen.stores.models import KitSet, Lot
from kitchen.stores.moves.expiring.soon import Ending, Planned, could_use, days_left, last_day, left_words

#: How far the page looks ahead: two weeks of lessons are planned (our own figure, no source).
DAYS = 14


@dataclass(frozen=True, slots=True)
class EndingRow:
    """One lot in words, and the lessons that could use it; ``gone`` when it may not be issued any more."""

    lot: Lot
    on_hand: str
    date: str
    left: str
    days: int
    lessons: tuple[Lesson, ...]
    gone: bool


def expiring(today: date, days: int = DAYS) -> list[EndingRow]:
    """Lots that end within so many days or have ended, the first to end first. Six queries at most."""
    until = today + timedelta(days)
    lots = [(lot, end) for lot in _stock() if (end := _ends(lot)) is not None and end.last_on <= until]
    lessons = _lessons(today, until) if lots else {}
    planned = _planned(lessons)
    rows = [_row(lot, end, planned, lessons, today) for lot, end in lots]
    return sorted(rows, key=lambda row: (row.days, row.lot.food.name, row.lot.code))


def _stock() -> list[Lot]:
    rows = Lot.objects.filter(on_hand_milligrams__gt=0)
    return list(rows.select_related("food__keeping", "food__made_from", "made_in"))


def _ends(lot: Lot) -> Ending | None:
    gone = timezone.localtime(lot.discard_at).date() if lot.discard_at else None
    hard = last_day(gone, last_on(lot), lot.date if lot.date_kind == Lot.DateKind.USE_BY else None)
    last = last_day(hard, lot.date)
    if last is None:
        return None
    return Ending(lot.pk, lot.food_id, last, hard)


def _lessons(today: date, until: date) -> dict[int, Lesson]:
    """Lessons planned in these days whose kits have not left."""
    left = KitSet.objects.filter(state=KitSet.State.ACCEPTED, issued_at__isnull=False)
    rows = Lesson.objects.filter(on__gte=today, on__lte=until).exclude(state=Lesson.State.CANCELLED)
    return {lesson.pk: lesson for lesson in rows.exclude(kit_sets__in=left).select_related("group")}


def _planned(lessons: dict[int, Lesson]) -> list[Planned]:
    """The foods of each lesson: those of its dishes and of the variants at its benches."""
    versions: dict[int, set[int]] = defaultdict(set)
    for lesson, version in Dish.objects.filter(lesson__in=lessons).values_list("lesson", "version"):
        versions[lesson].add(version)
    for lesson, version in (
        places_taken().filter(shift__lesson__in=lessons).values_list("shift__lesson", "version")
    ):
        versions[lesson].add(version)
    foods: dict[int, set[int]] = defaultdict(set)
    lines = Line.objects.filter(component__version__in=set().union(*versions.values()))
    for version, food, whole in lines.values_list("component__version", "food", "food__made_from"):
        foods[version] |= {food, whole} - {None}
    return [
        Planned(key, lessons[key].on, frozenset().union(*(foods[each] for each in used)))
        for key, used in versions.items()
    ]


def _row(lot: Lot, end: Ending, planned: list[Planned], lessons: dict[int, Lesson], today: date) -> EndingRow:
    days = days_left(end.last_on, today)
    gone = end.gone(today)
    usable = () if gone or lot.held or lot.made_in_id else could_use(end, planned, today)
    return EndingRow(
        lot=lot,
        on_hand=on_hand_words(lot.food, lot.on_hand_milligrams),
        date=date_words(lot, today),
        left=left_words(end.last_on, today),
        days=days,
        lessons=tuple(lessons[key] for key in usable),
        gone=gone,
    )
