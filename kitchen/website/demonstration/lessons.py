"""Books the demonstration's lessons and fills their benches and registers, by the pages' own actions."""

from datetime import date, time

from curriculum.recipes.models import Version
from curriculum.recipes.queries import approved
from kitchen.lessons.actions import book_lesson, place_learners, take_attendance
from kitchen.lessons.models import Attendance, Lesson
from kitchen.lessons.orders import BookingOrder
from kitchen.lessons.places import Placed
from kitchen.rooms.models import Room
from kitchen.website.demonstration import files
from kitchen.website.demonstration.people import group, learners, person
from kitchen.website.demonstration.stages import answer_of, key

WORKING = {"individual": "single", "pairs": "pair", "demonstration": "single"}


def lessons_to_work() -> list[dict]:
    """The lessons of the files that the demonstration works through, in their order."""
    return [each for each in files.read("lessons.json")["lessons"] if each["worked_through"]]


def lessons_to_book() -> list[dict]:
    """The lessons of the files that are only booked: the week that comes after."""
    return [each for each in files.read("lessons.json")["lessons"] if not each["worked_through"]]


def version_of(code: str) -> Version:
    """The version of a recipe that is approved to teach."""
    version = approved(code)
    if version is None:
        raise LookupError(f"The recipe {code} is not in the book of the demonstration.")
    return version


def wished_order(said: dict) -> BookingOrder:
    """The lesson as its lecturer first wishes it, from its entry in lessons.json."""
    wish = {**said, **said.get("first_wish", {})}
    starts, ends = time.fromisoformat(said["starts"]), time.fromisoformat(said["ends"])
    college = files.read("college.json")["college"]
    return BookingOrder(
        on=date.fromisoformat(said["date"]),
        starts=starts,
        minutes=(ends.hour - starts.hour) * 60 + ends.minute - starts.minute,
        start_minutes=college["lesson_start_minutes"],
        clear_minutes=college["lesson_clear_down_minutes"],
        room=Room.objects.get(code=said["room"]).pk,
        group=group(said["groups"][0]).pk,
        lecturer=person(said["lecturer"]).pk,
        technician=person(said["technician"]).pk,
        version=version_of(said["dish"]).pk,
        title=said["title"],
        kind=said["kind"],
        portions_a_bench=said["portions_per_bench"],
        working=WORKING[wish["arrangement"]],
        demonstration_batches=said.get("demonstration_batches", 0),
        spare_batches=said.get("spare_batches", 0),
        taught_steps=tuple(said.get("steps", ())),
        food_becomes=said["food_becomes"],
        note=said.get("note", ""),
    )


def book(said: dict) -> Lesson:
    """Book the lesson as it is first wished; at a second start it is the lesson that stands."""
    booked = answer_of(said["code"], "book")
    if booked is not None:
        return Lesson.objects.get(pk=booked["lesson"])
    lecturer = person(said["lecturer"])
    return book_lesson(order=wished_order(said), by=lecturer, key=key(said["code"], "book"))


def place(lesson: Lesson, said: dict) -> None:
    """Put everybody to the bench of the files, with the variant that a diet there needs."""
    if answer_of(said["code"], "places") is not None:
        return
    students = learners()
    variants = {each["bench"]: each["variant"] for each in said.get("variants", ())}
    places = [
        Placed(
            bench=each["bench"],
            recipe=variants.get(each["bench"], said["dish"]),
            cooks=tuple(students[code].pk for code in each["learners"]),
        )
        for each in said["places"]
    ]
    lecturer = person(said["lecturer"])
    place_learners(lesson=lesson, places=places, by=lecturer, key=key(said["code"], "places"))


def take_register(lesson: Lesson, said: dict) -> None:
    """Everybody is there: one word in the register for each learner who has none yet."""
    students, lecturer = learners(), person(said["lecturer"])
    known = set(Attendance.objects.filter(lesson=lesson).values_list("student__user__username", flat=True))
    for code in [code for each in said["places"] for code in each["learners"] if code not in known]:
        take_attendance(
            lesson=lesson,
            student=students[code],
            state=Attendance.State.PRESENT,
            by=lecturer,
            key=key(said["code"], "present", code),
        )
