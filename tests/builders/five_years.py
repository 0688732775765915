"""Years of a large college's stores, written straight into the tables for measuring.

Sizes (assumed, no source): 2,000 learners in 100 groups of 20, one practical a week in 36 weeks
a year: 18,000 lessons of 10 pairs in five years, 180,000 kits of 8 lines, so 1,440,000 lines and
as many issues; 60 foods that arrive in one lot a week with four orders and deliveries, 10,800 lots. In
each lesson the first line of each kit comes out of a bowl that was made of the week's two lots of one
food, so that such a lot reaches every learner of the college. What a week leaves over is used up, but
for the last two weeks. Fewer years leave each week as full as it is.

The first week is written row by row; the others are its copies, moved on by so many keys and days
in one statement a table. Only for SQLite, in a database that has nothing else.
"""

import uuid
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from itertools import count

from django.db import connection, models, transaction
from django.utils import timezone

from curriculum.foods.models import Food, Supplier
from curriculum.people.models import College, Group, RoleGrant, Student, User
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.rooms.models import Bench, Room
from kitchen.stores.deliveries.models import Delivery
from kitchen.stores.models import (
    Kit,
    KitLine,
    KitSet,
    Lot,
    MadePart,
    Movement,
    Requisition,
    RequisitionLine,
)
from kitchen.stores.orders.models import Order
from tests.builders.book import TERM, a_book, a_person
from tests.builders.deliveries import a_supplier

GROUPS, BENCHES, LINES, FOODS, WEEKS, ORDERS = 100, 10, 8, 60, 36, 4
LINE_MILLIGRAMS = 100_000
EMPTIED = "Used up"
#: What a week has, in the order in which it is copied.
OF_A_WEEK = (Lesson, Shift, Dish, Place, PlaceLearner, Requisition, RequisitionLine, KitSet, Kit, KitLine)
OF_A_WEEK += (Lot, Movement, MadePart, Order, Delivery)


@dataclass
class Years:
    """What the first week is written with."""

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


def monday_of(week: int, years: int) -> date:
    """The Monday of a week, counted from the first year's first."""
    year, of_year = divmod(week, WEEKS)
    return TERM - timedelta(365 * (years - year)) + timedelta(7 * of_year)


def years_of_stores(years: int) -> None:
    """So many years of stores; today is the last of their weeks."""
    last = years * WEEKS - 1
    College.objects.create(name="A college", short_name="A", shown_today=monday_of(last, years))
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA synchronous = OFF")
        cursor.execute("PRAGMA cache_size = -400000")
    _a_week(_people(), 0, monday_of(0, years))
    RoleGrant.objects.update(from_on=monday_of(0, years))
    sizes = {model: model.objects.count() for model in OF_A_WEEK}
    for week in range(1, last + 1):
        days = (monday_of(week, years) - monday_of(0, years)).days
        with transaction.atomic():
            for model in OF_A_WEEK:
                _copied(model, sizes, week, days, full=week > last - 2)
    connection.close()


def _copied(model: type[models.Model], sizes: dict, week: int, days: int, *, full: bool) -> None:
    """The first week's rows of one table once more; ``full`` leaves its lots as they were after the issue."""
    fields = model._meta.concrete_fields
    columns = ", ".join(f'"{each.column}"' for each in fields)
    values = ", ".join(_value(each, sizes, week, days, full) for each in fields)
    table, only = model._meta.db_table, f"WHERE id <= {sizes[model]}"
    if model is Movement and full:
        only += f" AND reason <> '{EMPTIED}'"
    with connection.cursor() as cursor:
        cursor.execute(f"INSERT INTO {table} ({columns}) SELECT {values} FROM {table} {only}")


def _value(field: models.Field, sizes: dict, week: int, days: int, full: bool) -> str:
    """What stands in a column of the copy."""
    column, own = f'"{field.column}"', field.model
    if field.primary_key:
        return f"{column} + {week * sizes[own]}"
    if field.remote_field and field.remote_field.model in sizes:
        return f"{column} + {week * sizes[field.remote_field.model]}"
    if field.column == "code":
        own_code = f"'Z' || printf('%07X', id + {week * sizes[own]})"
        return f"CASE WHEN code LIKE 'W0-%' THEN replace(code, 'W0-', 'W{week}-') ELSE {own_code} END"
    if field.column == "batch":
        return f"replace(batch, 'B0-', 'B{week}-')"
    if isinstance(field, models.UUIDField):
        return "lower(hex(randomblob(16)))"
    if full and own is Lot and field.column in ("on_hand_milligrams", "moves"):
        what = "coalesce(sum(milligrams), 0)" if field.column == "on_hand_milligrams" else "count(*)"
        moved = Movement._meta.db_table
        return (
            f"(SELECT {what} FROM {moved} AS moved WHERE moved.lot_id = {own._meta.db_table}.id "
            f"AND moved.reason <> '{EMPTIED}')"
        )
    if isinstance(field, models.DateTimeField):
        return f"datetime({column}, '{days:+} days')"
    return f"date({column}, '{days:+} days')" if isinstance(field, models.DateField) else column


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
    return Years(hana, lecturer, version, foods, a_supplier(), groups, students, benches)


def _a_week(made: Years, week: int, monday: object) -> None:
    lots = Lot.objects.bulk_create(
        Lot(
            code=f"W{week}-{at}",
            food=food,
            supplier=made.supplier,
            batch=f"B{week}-{at}",
            received_on=monday,
            label_read_on=monday,
            **({"date_kind": "use_by", "date": monday + timedelta(10)} if at % 2 else {"date_kind": "none"}),
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
    _asked(made, lessons)
    _ordered(made, monday)
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
        lot = lots[_food_at(lesson, position)] if position else bowls[lesson]
        _move(made, lot, -LINE_MILLIGRAMS, "issue", line)
    for lot in lots:
        _move(made, lot, -lot.on_hand_milligrams, "waste", reason=EMPTIED)
    Movement.objects.bulk_create(made.rows)
    MadePart.objects.bulk_create(MadePart(made=bowl, movement=row) for bowl, row in parts)
    Lot.objects.bulk_update([*lots, *bowls], ["on_hand_milligrams", "moves"], batch_size=100)
    made.rows.clear()


def _food_at(lesson: int, position: int) -> int:
    """Which food a line of a lesson's kits is of; the first line's is the bowl's."""
    return 2 + (lesson * 7 + position) % (FOODS - 2) if position else 0


def _asked(made: Years, lessons: list) -> None:
    """Twice what the kits then take, so that the last week has something to order."""
    rows = Requisition.objects.bulk_create(
        Requisition(lesson=lesson, number=1, state="approved", by=made.lecturer) for lesson in lessons
    )
    RequisitionLine.objects.bulk_create(
        RequisitionLine(
            requisition=row,
            food=made.foods[_food_at(lesson, position)],
            milligrams=2 * BENCHES * LINE_MILLIGRAMS,
            why="kits",
        )
        for lesson, row in enumerate(rows)
        for position in range(LINES)
    )


def _ordered(made: Years, monday: date) -> None:
    facts = {"supplier": made.supplier, "by": made.hana}
    at = timezone.make_aware(datetime.combine(monday, time(7)))
    sent = {"state": "delivered", "sent_at": at, "sent_by": made.hana, "ended_at": at, "ended_by": made.hana}
    orders = Order.objects.bulk_create(
        Order(code=made.code(), for_on=monday + timedelta(day), **sent, **facts) for day in range(ORDERS)
    )
    Delivery.objects.bulk_create(
        Delivery(code=made.code(), order=order, on=order.for_on, closed_at=at, closed_by=made.hana, **facts)
        for order in orders
    )


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
    issued_at = timezone.make_aware(datetime.combine(lessons[0].on, time(8)))
    sets = KitSet.objects.bulk_create(
        KitSet(lesson=lesson, number=1, inputs={}, inputs_hash="", by=made.hana, issued_at=issued_at)
        for lesson in lessons
    )
    kits = Kit.objects.bulk_create(
        Kit(kit_set=sets[at // BENCHES], code=made.code(), kind="bench", place=place, version=made.version)
        for at, place in enumerate(places)
    )
    return KitLine.objects.bulk_create(
        KitLine(
            kit=kit,
            position=position + 1,
            food=made.foods[_food_at(at // BENCHES, position)],
            food_words="food",
            exact="1",
            milligrams=LINE_MILLIGRAMS,
            stock_milligrams=LINE_MILLIGRAMS,
        )
        for at, kit in enumerate(kits)
        for position in range(LINES)
    )


def _move(
    made: Years, lot: Lot, milligrams: int, kind: str, line: KitLine | None = None, reason: str = ""
) -> Movement:
    lot.on_hand_milligrams += milligrams
    lot.moves += 1
    row = Movement(
        lot=lot,
        number=lot.moves,
        milligrams=milligrams,
        balance_milligrams=lot.on_hand_milligrams,
        kind=kind,
        kit_line=line,
        reason=reason,
        key=uuid.UUID(int=next(made.number)),
        by=made.hana,
    )
    made.rows.append(row)
    return row
