"""Years of a large college's stores, written straight into the tables for measuring.

Sizes (assumed, no source): 2,000 learners in 100 groups of 20, one practical a week in 36 weeks
a year: 18,000 lessons of 10 pairs in five years, 180,000 kits of 8 lines, so 1,440,000 lines and
as many issues; 60 foods that arrive in one lot a week, 10,800 lots. In each lesson the first
line of each kit comes out of a bowl that was made of the week's two lots of one food, so that
such a lot reaches every learner of the college. Fewer years leave each week as full as it is.
"""

import uuid
from dataclasses import dataclass, field
from datetime import datetime, time, timedelta
from itertools import count

from django.utils import timezone

from curriculum.foods.models import Food, Supplier
from curriculum.people.models import Group, Student, User
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.rooms.models import Bench, Room
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, MadePart, Movement
from tests.builders.book import TERM, a_book, a_person

GROUPS, BENCHES, LINES, FOODS, WEEKS = 100, 10, 8, 60, 36
LINE_MILLIGRAMS = 100_000


@dataclass
class Years:
    """What every week is written with."""

    hana: User
    lecturer: User
    version: object
    foods: list
    supplier: Supplier
    groups: list
    students: list
    benches: list
    number: count = field(default_factory=count)
    rows: list = field(default_factory=list)

    def code(self) -> str:
        return f"{next(self.number):08X}"


def years_of_stores(years: int) -> None:
    """So many years of stores, in a database that has nothing else."""
    made = _people()
    for week in range(years * WEEKS):
        year, of_year = divmod(week, WEEKS)
        _a_week(made, week, TERM - timedelta(365 * (years - year)) + timedelta(7 * of_year))


def _people() -> Years:
    version = a_book("R01")["R01"]
    lecturer, hana = a_person("marek"), a_person("hana", "stores")
    room = Room.objects.create(code="large", name="Large Kitchen", purpose="general")
    benches = Bench.objects.bulk_create(Bench(room=room, number=at + 1) for at in range(BENCHES))
    groups = Group.objects.bulk_create(
        Group(code=f"G{at:03}", year=2026, name="A group", lecturer=lecturer) for at in range(GROUPS)
    )
    wanted = GROUPS * BENCHES * 2
    users = User.objects.bulk_create(
        User(username=f"l{at:04}", name=f"Learner {at:04}", password="!") for at in range(wanted)
    )
    students = Student.objects.bulk_create(Student(user=user, college_number=user.username) for user in users)
    foods = Food.objects.bulk_create(Food(code=f"year_{at}", name=f"Food {at}") for at in range(FOODS))
    return Years(hana, lecturer, version, foods, Supplier.objects.first(), groups, students, benches)


def _a_week(made: Years, week: int, monday: object) -> None:
    lots = Lot.objects.bulk_create(
        Lot(
            code=f"W{week}-{at}",
            food=food,
            supplier=made.supplier,
            batch=f"B{week}-{at}",
            received_on=monday,
            date_kind="none",
        )
        for at, food in enumerate(made.foods)
    )
    lessons = Lesson.objects.bulk_create(
        Lesson(
            code=made.code(),
            title=f"Lesson of week {week}",
            on=monday + timedelta(at % 5),
            starts=time(9),
            minutes=180,
            room_id=made.benches[0].room_id,
            group=group,
            lecturer=made.lecturer,
            state="run",
        )
        for at, group in enumerate(made.groups)
    )
    bowls = Lot.objects.bulk_create(_bowl(made, lesson) for lesson in lessons)
    for lot in lots:
        _move(made, lot, 10**9, "receive")
    lines = _kits(made, lessons, _places(made, lessons))
    parts = []
    for bowl in bowls:
        for lot in lots[:2]:
            parts.append((bowl, _move(made, lot, -BENCHES * LINE_MILLIGRAMS // 2, "issue")))
        _move(made, bowl, BENCHES * LINE_MILLIGRAMS, "receive")
    for at, line in enumerate(lines):
        lesson, position = at // (BENCHES * LINES), at % LINES
        lot = lots[2 + (lesson * 7 + position) % (FOODS - 2)] if position else bowls[lesson]
        _move(made, lot, -LINE_MILLIGRAMS, "issue", line)
    Movement.objects.bulk_create(made.rows)
    MadePart.objects.bulk_create(MadePart(made=bowl, movement=row) for bowl, row in parts)
    Lot.objects.bulk_update([*lots, *bowls], ["on_hand_milligrams", "moves"], batch_size=100)
    made.rows.clear()


def _bowl(made: Years, lesson: Lesson) -> Lot:
    at = timezone.make_aware(datetime.combine(lesson.on, time(8)))
    return Lot(
        code=made.code(),
        food=made.foods[0],
        received_on=lesson.on,
        date_kind="none",
        made_in=lesson,
        made_at=at,
        discard_at=at + timedelta(hours=4),
    )


def _places(made: Years, lessons: list) -> list:
    shifts = Shift.objects.bulk_create(
        Shift(lesson=lesson, number=1, starts=time(9), minutes=180) for lesson in lessons
    )
    dishes = Dish.objects.bulk_create(
        Dish(lesson=lesson, version=made.version, portions_a_bench=8) for lesson in lessons
    )
    places = Place.objects.bulk_create(
        Place(shift=shift, bench=bench, dish=dish, version=made.version, code=made.code())
        for shift, dish in zip(shifts, dishes, strict=True)
        for bench in made.benches
    )
    PlaceLearner.objects.bulk_create(
        PlaceLearner(place=places[at // 2], shift_id=places[at // 2].shift_id, student=student)
        for at, student in enumerate(made.students)
    )
    return places


def _kits(made: Years, lessons: list, places: list) -> list:
    sets = KitSet.objects.bulk_create(
        KitSet(lesson=lesson, number=1, inputs={}, inputs_hash="", by=made.hana) for lesson in lessons
    )
    kits = Kit.objects.bulk_create(
        Kit(kit_set=sets[at // BENCHES], code=made.code(), kind="bench", place=place, version=made.version)
        for at, place in enumerate(places)
    )
    return KitLine.objects.bulk_create(
        KitLine(
            kit=kit,
            position=position + 1,
            food=made.foods[0],
            food_words="food",
            exact="1",
            milligrams=LINE_MILLIGRAMS,
            stock_milligrams=LINE_MILLIGRAMS,
        )
        for kit in kits
        for position in range(LINES)
    )


def _move(made: Years, lot: Lot, milligrams: int, kind: str, line: KitLine | None = None) -> Movement:
    lot.on_hand_milligrams += milligrams
    lot.moves += 1
    row = Movement(
        lot=lot,
        number=lot.moves,
        milligrams=milligrams,
        balance_milligrams=lot.on_hand_milligrams,
        kind=kind,
        kit_line=line,
        key=uuid.UUID(int=next(made.number)),
        by=made.hana,
    )
    made.rows.append(row)
    return row
