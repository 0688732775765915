"""What the pages of lessons read: a day's bookings, weeks of lessons, a class with its diets."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, Prefetch, Q, QuerySet

from curriculum.courses.models import Holiday
from curriculum.foods.models import Avoidance
from curriculum.people.models import Student
from curriculum.people.queries import kept_apart_pairs, members_of, the_college
from curriculum.recipes.data import RecipeData
from curriculum.recipes.models import Version
from curriculum.recipes.queries import latest_approved, recipes_data
from kitchen.lessons.diets import Avoids, workable
from kitchen.lessons.models import Attendance, Dish, Lesson, Place, PlaceLearner
from kitchen.lessons.orders import BookingOrder
from kitchen.lessons.places import Cook, Seat
from kitchen.lessons.slots import Booked, Person, Slot
from kitchen.rooms.models import Bench, Closure, Room


@dataclass(frozen=True, slots=True)
class Learner:
    """One learner of a class on the day of the lesson, with what they avoid."""

    student: Student
    avoids: tuple[Avoids, ...]

    @property
    def name(self) -> str:
        """The name as it is written."""
        return self.student.user.name


@dataclass(frozen=True, slots=True)
class DishChoice:
    """One dish of a lesson with its ordinary recipe and the variants of it."""

    dish: Dish
    recipe: RecipeData
    variants: tuple[RecipeData, ...]
    versions: dict[str, Version]


@dataclass(frozen=True, slots=True)
class LessonClass:
    """Everything that places and diets of one lesson are reckoned from."""

    lesson: Lesson
    learners: tuple[Learner, ...]
    dishes: tuple[DishChoice, ...]
    benches: tuple[Bench, ...]
    apart: frozenset[tuple[int, int]]
    places: tuple[Place, ...]

    def bench_of(self, student: Student) -> Place | None:
        """The place at which a learner stands, if any."""
        for place in self.places:
            if any(row.student_id == student.pk for row in place.learners.all()):
                return place
        return None


def minutes_of(at: datetime | None, day: date, zone: ZoneInfo) -> int:
    """An instant as minutes after midnight of a day of the college; before and after it are its ends."""
    if at is None:
        return 24 * 60
    local = at.astimezone(zone)
    if local.date() != day:
        return 0 if local.date() < day else 24 * 60
    return local.hour * 60 + local.minute


def slot_of(lesson: Lesson) -> Slot:
    """The slot of a lesson."""
    return Slot(lesson.starts.hour * 60 + lesson.starts.minute, lesson.minutes)


def booked_on(day: date, but: Lesson | None = None) -> list[Booked]:
    """The lessons of a day that are not cancelled, as the clash check reads them. One query."""
    lessons = (
        Lesson.objects.filter(on=day)
        .exclude(state=Lesson.State.CANCELLED)
        .select_related("room", "group", "lecturer", "cover")
        .order_by("starts", "pk")
    )
    return [_booked(lesson) for lesson in lessons if but is None or lesson.pk != but.pk]


def _booked(lesson: Lesson) -> Booked:
    teacher = lesson.cover or lesson.lecturer
    return Booked(
        slot=slot_of(lesson),
        title=lesson.title,
        room=lesson.room_id,
        room_name=lesson.room.name,
        group=lesson.group_id,
        group_code=lesson.group.code,
        teacher=Person(teacher.pk, teacher.name),
    )


def kitchens() -> list[tuple[int, str]]:
    """Rooms with benches, which can stand in for each other: (key, name)."""
    return list(Room.objects.filter(benches__isnull=False).distinct().values_list("pk", "name"))


def closure_of(room: Room, day: date, slot: Slot) -> Closure | None:
    """The closure of a whole room that touches the slot, if any."""
    zone = ZoneInfo(the_college().time_zone)
    first, last = (
        datetime.combine(each, datetime.min.time(), zone) for each in (day, day + timedelta(days=1))
    )
    closures = Closure.objects.filter(
        Q(until_at=None) | Q(until_at__gt=first), room=room, appliance=None, from_at__lt=last
    )
    for closure in closures:
        begins, ends = minutes_of(closure.from_at, day, zone), minutes_of(closure.until_at, day, zone)
        if Slot(begins, ends - begins).meets(slot):
            return closure
    return None


def holiday_on(day: date) -> Holiday | None:
    """The day of closing that this is, if it is one."""
    return Holiday.objects.filter(on=day).first()


def avoidances_of(students: Iterable[Student], on: date) -> dict[int, tuple[Avoids, ...]]:
    """What learners avoid on a day, by their key. One query."""
    found = avoidances_by_day((student.pk, on) for student in students)
    return {student: avoids for (student, _), avoids in found.items()}


def avoidances_by_day(wanted: Iterable[tuple[int, date]]) -> dict[tuple[int, date], tuple[Avoids, ...]]:
    """What learners avoid, each on the days asked for: key and day. One query."""
    days: dict[int, set[date]] = defaultdict(set)
    for student, on in wanted:
        days[student].add(on)
    found: dict[tuple[int, date], list[Avoids]] = defaultdict(list)
    for row in Avoidance.objects.filter(student__in=days).select_related("food").order_by("pk"):
        food = row.food
        avoids = Avoids(row.kind, food.code if food else "", row.way, food.name if food else "")
        for on in days[row.student_id]:
            if row.from_on <= on and (row.until_on is None or row.until_on >= on):
                found[row.student_id, on].append(avoids)
    return {key: tuple(avoids) for key, avoids in found.items()}


def learners_of(lesson: Lesson) -> tuple[Learner, ...]:
    """The class of a lesson on its day, by name, with what each avoids. Three queries."""
    students = list(members_of(lesson.group, lesson.on))
    avoids = avoidances_of(students, lesson.on)
    return tuple(Learner(student, avoids.get(student.pk, ())) for student in students)


def dishes_of(lesson: Lesson) -> tuple[DishChoice, ...]:
    """The dishes of a lesson with their variants, as their labels stand today."""
    dishes = list(lesson.dishes.select_related("version__recipe").order_by("pk"))
    recipes = {dish.version.recipe_id for dish in dishes}
    variants = list(latest_approved().filter(recipe__variant_of__in=recipes))
    data = recipes_data([*(dish.version for dish in dishes), *variants])
    return tuple(
        _choice(
            dish, [each for each in variants if each.recipe.variant_of_id == dish.version.recipe_id], data
        )
        for dish in dishes
    )


def _choice(dish: Dish, variants: list[Version], data: dict[int, RecipeData]) -> DishChoice:
    versions = {data[version.pk].code: version for version in (dish.version, *variants)}
    return DishChoice(dish, data[dish.version_id], tuple(data[each.pk] for each in variants), versions)


def places_taken() -> QuerySet[Place]:
    """Places at which somebody stands. One that a kit names stays written when its learners are taken off."""
    return Place.objects.filter(Exists(PlaceLearner.objects.filter(place=OuterRef("pk"))))


def places_of(lesson: Lesson) -> tuple[Place, ...]:
    """The places of a lesson in bench order, with learners by name and recipes. Two queries."""
    learners = PlaceLearner.objects.select_related("student__user").order_by("student__user__name", "student")
    places = (
        places_taken()
        .filter(shift__lesson=lesson)
        .select_related("bench", "version__recipe", "dish", "shift")
        .prefetch_related(Prefetch("learners", learners))
        .order_by("shift__number", "bench__number")
    )
    return tuple(places)


def class_of(lesson: Lesson) -> LessonClass:
    """Everything that places and diets are reckoned from; a fixed number of queries."""
    learners = learners_of(lesson)
    pairs = kept_apart_pairs([learner.student for learner in learners])
    return LessonClass(
        lesson=lesson,
        learners=learners,
        dishes=dishes_of(lesson),
        benches=tuple(lesson.room.benches.all()),
        apart=frozenset(tuple(sorted(pair)) for pair in pairs),
        places=places_of(lesson),
    )


def seats_of(found: LessonClass) -> list[Seat]:
    """The benches of the room as the proposal reads them."""
    return [Seat(bench.number, bench.cooks) for bench in found.benches]


def cooks_of(found: LessonClass) -> list[Cook]:
    """The class as the proposal reads it: whom each dish and variant can be put to."""
    return [
        Cook(
            learner.student.pk,
            learner.name,
            tuple(
                code
                for choice in found.dishes
                for code in workable(learner.avoids, choice.recipe, choice.variants)
            ),
        )
        for learner in found.learners
    ]


def worked_by_code(found: LessonClass) -> dict[str, tuple[DishChoice, Version]]:
    """The dish and version behind every recipe code that a bench of this lesson can work."""
    return {
        code: (choice, version)
        for choice in reversed(found.dishes)
        for code, version in choice.versions.items()
    }


def attendance_of(lesson: Lesson) -> dict[int, Attendance]:
    """The last word of the register for each learner, by their key. One query."""
    rows = Attendance.objects.filter(lesson=lesson).select_related("by").order_by("number")
    return {row.student_id: row for row in rows}


def bench_numbers(lesson: Lesson) -> dict[int, int]:
    """The bench that each learner stands at, by the learner's key. One query."""
    rows = PlaceLearner.objects.filter(shift__lesson=lesson)
    return dict(rows.values_list("student", "place__bench__number"))


def order_of(lesson: Lesson) -> BookingOrder:
    """A lesson as it was asked for, for the form that changes it. One query."""
    dish = lesson.dishes.order_by("pk").first()
    return BookingOrder(
        on=lesson.on,
        starts=lesson.starts,
        minutes=lesson.minutes,
        start_minutes=lesson.start_minutes,
        clear_minutes=lesson.clear_minutes,
        room=lesson.room_id,
        group=lesson.group_id,
        lecturer=lesson.lecturer_id,
        version=dish.version_id,
        portions_a_bench=dish.portions_a_bench,
        working=dish.working,
        title=lesson.title,
        kind=lesson.kind,
        cover=lesson.cover_id,
        technician=lesson.technician_id,
        demonstration_batches=lesson.demonstration_batches,
        spare_batches=lesson.spare_batches,
        minutes_a_plate=lesson.minutes_a_plate,
        ahead_steps=tuple(dish.ahead_steps),
        ahead_on=dish.ahead_on,
        taught_steps=tuple(dish.taught_steps),
        food_becomes=lesson.food_becomes,
        note=lesson.note,
        contingency_minutes=lesson.contingency_minutes,
        break_after=lesson.break_after,
        break_minutes=lesson.break_minutes,
        supervisors=lesson.supervisors,
    )
