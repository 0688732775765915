"""Booking, changing and cancelling a lesson; putting learners to benches; the register."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from uuid import UUID, uuid4

from django.db import transaction
from django.db.models import Max, ProtectedError

from curriculum.errors import RuleBroken
from curriculum.people.models import Group, Student, User
from curriculum.people.queries import members_of, the_college, today_at
from curriculum.recipes.models import Version
from curriculum.records.actions import draw_code, once
from kitchen.lessons.models import Attendance, Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.lessons.orders import BookingOrder, demand_none
from kitchen.lessons.places import Placed, demand_places
from kitchen.lessons.queries import (
    LessonClass,
    booked_on,
    class_of,
    closure_of,
    cooks_of,
    holiday_on,
    kitchens,
    places_taken,
    seats_of,
    worked_by_code,
)
from kitchen.lessons.slots import Person, Trouble, Wanted, clashes
from kitchen.rooms.models import Room

#: Fields of an order that are fields of the lesson under the same name.
SAME = (
    *("on", "starts", "minutes", "start_minutes", "clear_minutes", "kind", "minutes_a_plate"),
    *("demonstration_batches", "spare_batches", "food_becomes", "note"),
    *("contingency_minutes", "break_after", "break_minutes", "supervisors"),
)


def book_lesson(*, order: BookingOrder, by: User, key: UUID | None = None) -> Lesson:
    """Book a lesson with its dish and one shift.

    RuleBroken with ``at_fields`` (field, sentence) for everything that stands in the way:
    room, lecturer or group taken, room or college closed, an impossible slot.
    """

    def do() -> dict:
        _lock(order)
        version = _demand_free(order, None)
        lesson = Lesson(code=draw_code(Lesson))
        _fill(lesson, order, version)
        lesson.full_clean()
        lesson.save()
        Shift.objects.create(lesson=lesson, number=1, starts=order.starts, minutes=order.minutes)
        dish = Dish(lesson=lesson)
        _fill_dish(dish, order)
        return {"lesson": lesson.pk}

    answer = once(key=key, action="book_lesson", by=by, said=order.said(), do=do)
    return Lesson.objects.get(pk=answer["lesson"])


def change_lesson(*, lesson: Lesson, order: BookingOrder, by: User, key: UUID | None = None) -> Lesson:
    """Change a booked lesson. Another room or dish clears its benches, unless kits are made for them."""

    def do() -> dict:
        _lock(order)
        current = Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand_open(current)
        version = _demand_free(order, current)
        dish = current.dishes.order_by("pk").first()
        _demand_once(dish, version)
        if (
            current.room_id != order.room
            or dish.version_id != order.version
            or current.group_id != order.group
        ):
            clear_places(lesson=current, by=by)
        title = current.title if dish.version_id == version.pk else ""
        _fill(current, replace(order, title=order.title or title), version)
        current.sequence += 1
        current.full_clean()
        current.save()
        current.shifts.filter(number=1).update(starts=order.starts, minutes=order.minutes)
        _fill_dish(dish, order)
        return {"lesson": current.pk}

    said = {"lesson": lesson.pk, **order.said()}
    answer = once(key=key, action="change_lesson", by=by, said=said, do=do)
    return Lesson.objects.get(pk=answer["lesson"])


@transaction.atomic
def plan_by_recipe(*, lesson: Lesson, by_recipe: bool, by: User) -> Lesson:
    """Plan the lesson by the recipes' own minutes, or by the paces that were learned."""
    current = Lesson.objects.select_for_update().get(pk=lesson.pk)
    _demand_open(current)
    current.by_recipe_minutes = by_recipe
    current.save(update_fields=["by_recipe_minutes"])
    return current


@transaction.atomic
def cancel_lesson(*, lesson: Lesson, why: str, by: User) -> Lesson:
    """Cancel a lesson; it stays in the book with the reason. Cancelling it twice changes nothing."""
    current = Lesson.objects.select_for_update().get(pk=lesson.pk)
    if current.state == Lesson.State.CANCELLED:
        return current
    _demand_open(current)
    current.state, current.note = Lesson.State.CANCELLED, why[:400]
    current.sequence += 1
    current.save(update_fields=["state", "note", "sequence"])
    return current


@transaction.atomic
def clear_places(*, lesson: Lesson, by: User) -> None:
    """Take everybody off the benches. RuleBroken when kits, marks or a plan already name a bench."""
    try:
        Place.objects.filter(shift__lesson=lesson).delete()
    except ProtectedError as error:
        raise RuleBroken(
            "places_in_use",
            "Kits or marks already name the benches of this lesson. Cancel it and book a new one.",
            field="room",
        ) from error


def place_learners(
    *, lesson: Lesson, places: Sequence[Placed], by: User, key: UUID | None = None
) -> list[Place]:
    """Keep who stands at which bench and works which recipe (``Placed.cooks`` are keys of students).

    A bench that keeps its number keeps its code. RuleBroken, with all troubles in its
    facts, for a learner on two benches, a bench given twice, a recipe against a diet.
    """

    def do() -> dict:
        current = Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand_open(current)
        found = class_of(current)
        demand_places(places, seats_of(found), cooks_of(found), found.apart)
        _keep_places(found, places)
        return {"lesson": current.pk}

    said = {"lesson": lesson.pk, "places": [[each.bench, each.recipe, list(each.cooks)] for each in places]}
    once(key=key, action="place_learners", by=by, said=said, do=do)
    return list(places_taken().filter(shift__lesson=lesson).order_by("bench__number"))


def add_dish(
    *, lesson: Lesson, version: Version, portions_a_bench: int, by: User, key: UUID | None = None
) -> Dish:
    """Cook another dish in the same lesson, for learners who cannot work the first."""

    def do() -> dict:
        current = Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand_open(current)
        _demand_approved(version)
        first = current.dishes.order_by("pk").first()
        dish, _ = Dish.objects.get_or_create(
            lesson=current,
            version=version,
            defaults={"portions_a_bench": portions_a_bench, "working": first.working},
        )
        return {"dish": dish.pk}

    said = {"lesson": lesson.pk, "version": version.pk, "portions": portions_a_bench}
    answer = once(key=key, action="add_dish", by=by, said=said, do=do)
    return Dish.objects.get(pk=answer["dish"])


def take_attendance(
    *, lesson: Lesson, student: Student, state: str, by: User, key: UUID | None = None
) -> Attendance:
    """Write one word into the register: a new row each time; the same word again changes nothing.

    The first word of a lesson makes it a lesson that has been run.
    """

    def do() -> dict:
        current = Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand_register_open(current, student)
        rows = Attendance.objects.filter(lesson=current, student=student).order_by("number")
        last = rows.last()
        if last is not None and last.state == state:
            return {"attendance": last.pk}
        number = (rows.aggregate(Max("number"))["number__max"] or 0) + 1
        row = Attendance(
            lesson=current, student=student, number=number, state=state, key=key or uuid4(), by=by
        )
        row.full_clean()
        row.save()
        if current.state != Lesson.State.RUN:
            Lesson.objects.filter(pk=current.pk).update(state=Lesson.State.RUN)
        return {"attendance": row.pk}

    said = {"lesson": lesson.pk, "student": student.pk, "state": state}
    answer = once(key=key, action="take_attendance", by=by, said=said, do=do)
    return Attendance.objects.get(pk=answer["attendance"])


def _lock(order: BookingOrder) -> None:
    """Lock room, people and group in key order, so that two bookings cannot both find the slot free."""
    people = {order.lecturer, order.teacher}
    for model, keys in ((Room, {order.room}), (User, people), (Group, {order.group})):
        list(model.objects.select_for_update().filter(pk__in=keys).order_by("pk"))


def _demand_free(order: BookingOrder, but: Lesson | None) -> Version:
    """The version to cook when nothing stands in the way; RuleBroken otherwise."""
    version = Version.objects.select_related("recipe").get(pk=order.version)
    _demand_approved(version)
    found = order.troubles()
    if not any(trouble.field == "ends" for trouble in found):
        found += _closed(order) + clashes(_wanted(order), booked_on(order.on, but), kitchens())
    demand_none(found)
    return version


def _demand_approved(version: Version) -> None:
    if version.state != Version.State.APPROVED:
        raise RuleBroken(
            "not_approved",
            f"{version.recipe.title}, version {version.number}, is not approved to teach.",
            field="version",
        )


def _demand_once(dish: Dish, version: Version) -> None:
    """Refuse to make the lesson's dish one that is cooked beside it already."""
    if Dish.objects.filter(lesson=dish.lesson_id, version=version).exclude(pk=dish.pk).exists():
        raise RuleBroken(
            "dish_twice",
            f"{version.recipe.title} is cooked in this lesson already. Choose another dish.",
            field="version",
        )


def _closed(order: BookingOrder) -> list[Trouble]:
    found = []
    holiday = holiday_on(order.on)
    if holiday is not None:
        words = f" ({holiday.words})" if holiday.words else ""
        found.append(
            Trouble("on", "college_closed", f"The college is closed that day{words}. Choose another day.")
        )
    room = Room.objects.get(pk=order.room)
    closure = closure_of(room, order.on, order.slot)
    if closure is not None:
        message = f"{room.name} is closed then: {closure.why}. Choose another room or time."
        found.append(Trouble("room", "room_closed", message))
    return found


def _wanted(order: BookingOrder) -> Wanted:
    teacher = User.objects.get(pk=order.teacher)
    return Wanted(order.slot, order.room, order.group, Person(teacher.pk, teacher.name))


def _demand_open(lesson: Lesson) -> None:
    if lesson.state == Lesson.State.CANCELLED:
        raise RuleBroken("lesson_cancelled", "This lesson is cancelled. Book a new one.")
    if lesson.state == Lesson.State.RUN:
        raise RuleBroken("lesson_run", "This lesson has been run: its register is begun. It stays as it was.")


def _fill(lesson: Lesson, order: BookingOrder, version: Version) -> None:
    for name in SAME:
        setattr(lesson, name, getattr(order, name))
    lesson.title = order.title or version.recipe.title
    lesson.assessed = order.kind == Lesson.Kind.ASSESSED
    lesson.room_id, lesson.group_id, lesson.lecturer_id = order.room, order.group, order.lecturer
    lesson.cover_id, lesson.technician_id = order.cover, order.technician


def _fill_dish(dish: Dish, order: BookingOrder) -> None:
    dish.version_id, dish.portions_a_bench, dish.working = (
        order.version,
        order.portions_a_bench,
        order.working,
    )
    dish.ahead_steps, dish.ahead_on = list(order.ahead_steps), order.ahead_on
    dish.taught_steps = list(order.taught_steps)
    if dish.plates >= order.portions_a_bench:
        dish.tasting_plates = dish.photograph_plates = dish.second_marker_plates = 0
    dish.full_clean()
    dish.save()


def _keep_places(found: LessonClass, places: Sequence[Placed]) -> None:
    shift = found.lesson.shifts.order_by("number").first()
    written = Place.objects.filter(shift=shift).select_related("bench")
    standing = {place.bench.number: place for place in written}
    worked, benches = worked_by_code(found), {bench.number: bench for bench in found.benches}
    PlaceLearner.objects.filter(shift=shift).delete()
    _take_away([place for number, place in standing.items() if number not in {each.bench for each in places}])
    for each in places:
        choice, version = worked[each.recipe]
        place = standing.get(each.bench) or Place(
            shift=shift, bench=benches[each.bench], code=draw_code(Place)
        )
        place.dish, place.version = choice.dish, version
        place.save()
        PlaceLearner.objects.bulk_create(
            PlaceLearner(place=place, shift=shift, student_id=student) for student in each.cooks
        )


def _take_away(places: list[Place]) -> None:
    """Benches where nobody stands any more; one that a kit names stays in the book with nobody at it."""
    for place in places:
        with suppress(ProtectedError):
            place.delete()


def _demand_register_open(lesson: Lesson, student: Student) -> None:
    if lesson.state == Lesson.State.CANCELLED:
        raise RuleBroken("lesson_cancelled", "This lesson is cancelled; nobody is expected.")
    if lesson.on > today_at(the_college()):
        raise RuleBroken("register_not_open", "The register opens on the day of the lesson.")
    if not members_of(lesson.group, lesson.on).filter(pk=student.pk).exists():
        raise RuleBroken(
            "not_of_this_class", f"{student.user.name} is not of {lesson.group.code} on that day."
        )
