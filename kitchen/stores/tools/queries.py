"""What the pages and actions of small equipment read: needs of a day, what is free, what is out.

Each function takes a fixed number of queries, however many lessons, benches or things there are.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Prefetch, Q, QuerySet, Sum

from curriculum.people.models import College
from curriculum.people.queries import now_at, the_college
from curriculum.recipes.data import EquipmentData, TinData
from curriculum.recipes.models import Version
from curriculum.recipes.queries import whole_of
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner
from kitchen.lessons.queries import places_taken, slot_of
from kitchen.rooms.models import Equipment
from kitchen.stores.models import Requisition
from kitchen.stores.tools import standing
from kitchen.stores.tools.asked import AskedLine, EquipmentAsked, same, things_of
from kitchen.stores.tools.counting import Counts, Handed, counts_of
from kitchen.stores.tools.kinds import KNIVES, group_of, name_of, order_of
from kitchen.stores.tools.lending import WASH_MINUTES, Asking, Hold, Loan
from kitchen.stores.tools.models import EquipmentLine, EquipmentMove
from kitchen.stores.tools.needs import Needed, Working, needs_of
from kitchen.stores.tools.standing import Day, Standing, standings
from kitchen.timeplan.demonstration_kept import for_stores, read_demonstration
from kitchen.timeplan.models import DemonstrationPlan, PlanState

#: The name of the college's setting that holds the minutes for washing between two lessons.
WASH_SETTING = "equipment_wash_minutes"
#: What a place is for that lends before rooms do.
STORES = "stores"

Kind = EquipmentMove.Kind


@dataclass(frozen=True, slots=True)
class LessonDay:
    """One lesson among those of its day: what it needs, what was lent to it, and the whole day."""

    asking: Asking
    needed: tuple[Needed, ...]
    lent: tuple[tuple[str, Loan], ...]
    day: Day

    def standing(self) -> tuple[Standing, ...]:
        """Each thing with what is approved already."""
        return standings(self.needed, self.asking, self.day, self.lent)

    def anew(self) -> tuple[Standing, ...]:
        """Each thing as it would be asked for now, as if nothing were lent yet."""
        return standings(self.needed, self.asking, self.day)


@dataclass(frozen=True, slots=True)
class Countable:
    """One thing of one place that a lesson may count out: what is proposed, and how many lie there."""

    thing: Equipment
    proposed: int
    moves_seen: int
    benches: tuple[tuple[int, int], ...] = ()

    @property
    def name(self) -> str:
        """The thing in words."""
        return name_of(self.thing.item)

    @property
    def lying_there(self) -> int:
        """How many are in the place and not out."""
        return self.thing.count - self.thing.out


def wash_minutes(college: College) -> int:
    """Minutes for washing between two lessons; ours until the college has written its own. No query."""
    return college.settings.get(WASH_SETTING, WASH_MINUTES)


def lesson_day(lesson: Lesson) -> LessonDay:
    """Needs, holds and loans of the day of a lesson. Eight queries."""
    college = the_college()
    lessons = {each.pk: each for each in _lessons_with(lesson)}
    loans = _loans(lessons)
    needed = _needed(lessons)
    day = Day(_places(now_at(college)), tuple(_holds(lessons, needed, loans)), wash_minutes(college))
    return LessonDay(_asking(lesson), needed[lesson.pk], tuple(loans[lesson.pk]), day)


def shortages_of(lesson: Lesson) -> tuple[Standing, ...]:
    """The things of which the lesson has too few, loans reckoned in. Eight queries."""
    return tuple(each for each in lesson_day(lesson).standing() if each.missing)


def lines_of(requisition: Requisition | None) -> list[EquipmentLine]:
    """What a requisition asks for beside food, knives first. One query."""
    rows = EquipmentLine.objects.filter(requisition=requisition).select_related("from_room")
    return sorted(rows, key=lambda row: (*order_of(row.item), row.from_room is None, row.pk))


def asked(requisition: Requisition | None, lesson: Lesson, *, gone: bool) -> EquipmentAsked:
    """What a requisition asks for beside food, or would ask for now without one. Nine queries at most.

    ``gone``: the kits have left or the lesson is cancelled, so nothing is asked for otherwise.
    """
    standing = [_asked_line(row) for row in lines_of(requisition)] if requisition else []
    if requisition and gone:
        return EquipmentAsked(things_of(standing))
    now = lines_to_ask(lesson_day(lesson).anew())
    if not requisition:
        return EquipmentAsked(things_of(now))
    return EquipmentAsked(things_of(standing), not same(standing, now))


def _asked_line(row: EquipmentLine) -> AskedLine:
    name = row.from_room.name if row.from_room else ""
    return AskedLine(row.item, row.from_room_id or 0, name, row.count, row.words)


def lines_to_ask(anew: Iterable[Standing]) -> list[AskedLine]:
    """What would be asked for: a line for each place that lends, one for what stays short. No query."""
    return [
        AskedLine(each.item, loan.place, loan.name, loan.count, each.words)
        for each in anew
        for loan in (*each.offers, Loan(0, "", each.short))
        if loan.count
    ]


def counts(lesson: Lesson) -> Counts:
    """What the lesson counted out and in, by thing, place and bench. Three queries at most."""
    return counts_of(_handed(EquipmentMove.objects.filter(lesson=lesson)).get(lesson.pk, ()))


def not_back(now: datetime) -> list[tuple[Lesson, Handed]]:
    """What ended lessons still have out, the latest lesson first. Four queries at most."""
    rows = EquipmentMove.objects.filter(equipment__out__gt=0, lesson__isnull=False)
    by_lesson = {key: [each for each in lines if each.open] for key, lines in _handed(rows).items()}
    lessons = Lesson.objects.filter(pk__in=[key for key, lines in by_lesson.items() if lines])
    ended = [
        each for each in lessons.select_related("group").order_by("-on", "-starts", "pk") if _ended(each, now)
    ]
    return [(each, line) for each in ended for line in counts_of(by_lesson[each.pk]).lines]


def to_count_out(lesson: Lesson) -> list[Countable]:
    """What the lesson may count out: what it needs and borrows, all knives of its room. Thirteen queries."""
    found = lesson_day(lesson)
    wanted = {each.item: each.needed for each in found.standing()}
    lent = {(item, loan.place): loan.count for item, loan in found.lent}
    rows = Equipment.objects.filter(
        Q(room=lesson.room_id) | Q(room__in={place for _, place in lent}),
        item__in=[*wanted, *_knives(lesson)],
    ).select_related("room")
    seen, went = moves_seen(lesson), _went_out(lesson)
    benches = _bench_lists(lesson)
    made = []
    for row in rows:
        borrowed = lent.get((row.item, row.room_id), 0)
        if row.room_id != lesson.room_id and not borrowed:
            continue
        own = wanted.get(row.item, 0) - sum(n for (item, _), n in lent.items() if item == row.item)
        proposed = (borrowed or max(0, own)) - went.get(row.pk, 0)
        listed = benches.get(row.item, ()) if row.room_id == lesson.room_id else ()
        made.append(Countable(row, max(0, min(proposed, row.count - row.out)), seen.get(row.pk, 0), listed))
    return sorted(made, key=lambda each: (*order_of(each.thing.item), each.thing.room.name))


def moves_seen(lesson: Lesson) -> dict[int, int]:
    """How many times the lesson counted each thing out or in. One query."""
    rows = EquipmentMove.objects.filter(lesson=lesson).order_by().values_list("equipment")
    found: dict[int, int] = defaultdict(int)
    for (thing,) in rows:
        found[thing] += 1
    return dict(found)


def open_of(lesson: Lesson) -> dict[tuple[int, int], int]:
    """By thing and place of a bench (0: the class as a whole): how many are still out. One query."""
    rows = EquipmentMove.objects.filter(lesson=lesson).order_by().values_list("equipment", "place")
    return {(thing, place or 0): out for thing, place, out in rows.annotate(out=Sum("out_change"))}


def _went_out(lesson: Lesson) -> dict[int, int]:
    """By thing: how many were counted out to the lesson so far, whether they are back or not."""
    rows = EquipmentMove.objects.filter(lesson=lesson, kind=Kind.OUT).order_by().values_list("equipment")
    return dict(rows.annotate(went=Sum("out_change")))


def _knives(lesson: Lesson) -> list[str]:
    items = Equipment.objects.filter(room=lesson.room_id, count__gt=0).values_list("item", flat=True)
    return [item for item in items if group_of(item) == KNIVES]


def _bench_lists(lesson: Lesson) -> dict[str, tuple[tuple[int, int], ...]]:
    """By thing: each place of the lesson with how many its recipe lists for it."""
    found: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for place in _working_places({lesson.pk: lesson}):
        counted: dict[str, int] = defaultdict(int)
        for each in _equipment(place.version):
            if not each.shared_by_room:
                counted[each.item] += each.count
        for item, count in counted.items():
            found[item].append((place.pk, count))
    return {item: tuple(places) for item, places in found.items()}


def _lessons_with(lesson: Lesson) -> QuerySet[Lesson]:
    """The lesson and the others of its day that are not cancelled."""
    stands = Q(on=lesson.on) & ~Q(state=Lesson.State.CANCELLED)
    return Lesson.objects.filter(stands | Q(pk=lesson.pk))


def _asking(lesson: Lesson) -> Asking:
    slot = slot_of(lesson)
    return Asking(lesson.code, lesson.room_id, slot.starts, slot.ends)


def _needed(lessons: Mapping[int, Lesson]) -> dict[int, tuple[Needed, ...]]:
    """What each lesson needs. Three queries."""
    benches: dict[int, list[tuple[EquipmentData, ...]]] = defaultdict(list)
    for place in _working_places(lessons):
        benches[place.shift.lesson_id].append(_equipment(place.version))
    shown: dict[int, Version] = {}
    for dish in Dish.objects.filter(lesson__in=lessons).select_related("version__recipe").order_by("pk"):
        shown.setdefault(dish.lesson_id, dish.version)
    trays = _trays(lessons, shown)
    return {
        key: needs_of(_working(lesson, benches[key], shown.get(key), trays.get(key)))
        for key, lesson in lessons.items()
    }


def _working(
    lesson: Lesson,
    benches: list[tuple[EquipmentData, ...]],
    version: Version | None,
    trays: tuple[tuple[str, ...], ...] | None,
) -> Working:
    if version is None or not (lesson.demonstration_batches or trays is not None):
        return Working(tuple(benches))
    return Working(tuple(benches), _equipment(version), trays or (), whole_of(TinData, "tins", version))


def _working_places(lessons: Mapping[int, Lesson]) -> QuerySet[Place]:
    places = places_taken().filter(shift__lesson__in=lessons).select_related("shift", "version")
    return places.order_by("shift__number", "bench__number", "pk")


def _equipment(version: Version) -> tuple[EquipmentData, ...]:
    return whole_of(EquipmentData, "equipment", version)


def _trays(
    lessons: Mapping[int, Lesson], shown: Mapping[int, Version]
) -> dict[int, tuple[tuple[str, ...], ...]]:
    """The components of each stage tray of the accepted demonstrations of these dishes."""
    plans = DemonstrationPlan.objects.filter(lesson__in=lessons, state=PlanState.ACCEPTED)
    found = {}
    for plan in plans:
        version = shown.get(plan.lesson_id)
        if version is not None and plan.inputs.get("recipe") == version.recipe.code:
            trays = for_stores(read_demonstration(plan.answer)).trays
            found[plan.lesson_id] = tuple(tray.components for tray in trays if tray.components)
    return found


def _loans(lessons: Mapping[int, Lesson]) -> dict[int, list[tuple[str, Loan]]]:
    """What is lent to each lesson by its approved requisition."""
    found: dict[int, list[tuple[str, Loan]]] = defaultdict(list)
    rows = EquipmentLine.objects.filter(
        requisition__lesson__in=lessons,
        requisition__state=Requisition.State.APPROVED,
        from_room__isnull=False,
    ).select_related("requisition", "from_room")
    for row in rows:
        loan = Loan(row.from_room_id, row.from_room.name, row.count)
        found[row.requisition.lesson_id].append((row.item, loan))
    return found


def _holds(
    lessons: Mapping[int, Lesson],
    needed: Mapping[int, tuple[Needed, ...]],
    loans: Mapping[int, list[tuple[str, Loan]]],
) -> Iterable[Hold]:
    """What each lesson holds of its own room, and of the places that lend to it."""
    for key, lesson in lessons.items():
        slot = slot_of(lesson)
        lent: dict[int, dict[str, int]] = defaultdict(dict)
        borrowed: dict[str, int] = defaultdict(int)
        for item, loan in loans.get(key, ()):
            lent[loan.place][item] = loan.count
            borrowed[item] += loan.count
        own = {each.item: max(0, each.count - borrowed[each.item]) for each in needed[key]}
        yield Hold(lesson.code, lesson.room_id, slot.starts, slot.ends, True, own)
        for place, counts_there in lent.items():
            yield Hold(lesson.code, place, slot.starts, slot.ends, False, counts_there)


def _places(now: datetime) -> tuple[standing.Place, ...]:
    """Every place with what it has, less what ended lessons have not brought back. Two queries."""
    gone: dict[int, int] = defaultdict(int)
    rows = EquipmentMove.objects.filter(equipment__out__gt=0, lesson__isnull=False)
    for thing, lesson, out in _open_by_lesson(rows):
        if _ended(lesson, now):
            gone[thing] += out
    there: dict[int, dict[str, int]] = defaultdict(dict)
    rooms = {}
    for row in Equipment.objects.select_related("room").order_by("room__name", "item"):
        there[row.room_id][row.item] = row.count - gone[row.pk]
        rooms[row.room_id] = row.room
    return tuple(
        standing.Place(key, room.name, room.purpose == STORES, there[key]) for key, room in rooms.items()
    )


def _open_by_lesson(rows: QuerySet[EquipmentMove]) -> list[tuple[int, Lesson, int]]:
    """Thing, lesson (its times alone) and how many it has out."""
    names = ("equipment", "lesson", "lesson__on", "lesson__starts", "lesson__minutes")
    sums = rows.order_by().values_list(*names).annotate(out=Sum("out_change")).filter(out__gt=0)
    return [
        (thing, Lesson(pk=key, on=on, starts=starts, minutes=minutes), out)
        for thing, key, on, starts, minutes, out in sums
    ]


def _ended(lesson: Lesson, now: datetime) -> bool:
    return (lesson.on, slot_of(lesson).ends) <= (now.date(), now.hour * 60 + now.minute)


def _handed(rows: QuerySet[EquipmentMove]) -> dict[int, list[Handed]]:
    """By lesson: the sums of these rows by thing and bench. Three queries at most."""
    names = ("lesson", "equipment", "equipment__item", "equipment__room__name", "place")
    sums = (
        rows.order_by()
        .values_list(*names)
        .annotate(
            went=Sum("out_change", filter=Q(kind=Kind.OUT), default=0),
            came=Sum("out_change", filter=Q(kind=Kind.BACK), default=0),
            lost=Sum("out_change", filter=Q(kind=Kind.LOST), default=0),
        )
    )
    sums = list(sums)
    places = _places_with_names({row[4] for row in sums if row[4]})
    found: dict[int, list[Handed]] = defaultdict(list)
    for lesson, thing, item, origin, place, went, came, lost in sums:
        bench, names_there = places.get(place, ("", ()))
        line = Handed(thing, item, origin, went, -came, -lost, place or 0, bench, names_there)
        found[lesson].append(line)
    return found


def _places_with_names(keys: set[int]) -> dict[int, tuple[str, tuple[str, ...]]]:
    """The plate of each bench, and who stands there."""
    if not keys:
        return {}
    learners = Prefetch(
        "learners", PlaceLearner.objects.select_related("student__user").order_by("student__user__name")
    )
    rows = Place.objects.filter(pk__in=keys).select_related("bench", "shift").prefetch_related(learners)
    return {row.pk: (row.plate, _names(row)) for row in rows}


def _names(place: Place) -> tuple[str, ...]:
    return tuple(row.student.user.printed_name for row in place.learners.all())
