"""Whose recipe sheet may be read: one's own, and every bench's by the staff of the kitchen."""

from dataclasses import dataclass

from django.http import Http404

from curriculum.people.access import roles_of
from curriculum.people.models import Student, User
from curriculum.people.roles import STAFF
from kitchen.lessons.access import lesson_for, place_of_student, teaches
from kitchen.lessons.models import Lesson, Place


@dataclass(frozen=True, slots=True)
class Seat:
    """A bench whose sheet may be read. ``learners`` are those whose adjustments it carries."""

    lesson: Lesson
    place: Place
    learners: tuple[Student, ...]
    is_own: bool


def own_seat(by: User, lesson: str) -> Seat:
    """The learner's own bench in a lesson; 404 where they have none, 403 for staff."""
    row = place_of_student(by, lesson)
    return Seat(row.shift.lesson, row.place, (row.student,), is_own=True)


def seats_of(by: User, lesson: str) -> tuple[Lesson, list[Seat]]:
    """Every bench of a lesson where somebody stands, for staff: by shift and bench; 403 for others.

    As on the sheet of one bench, what was agreed with the learners is there only for who teaches.
    """
    found = lesson_for(by, lesson)
    return found, seats_in(found, with_agreed=teaches(by, found))


def seats_in(lesson: Lesson, *, with_agreed: bool = False) -> list[Seat]:
    """Every bench of a lesson where somebody stands, by shift and bench."""
    rows = (
        Place.objects.filter(shift__lesson=lesson, learners__isnull=False)
        .distinct()
        .select_related("bench", "dish", "shift", "version__recipe")
        .prefetch_related("learners__student__user")
        .order_by("shift", "bench__number")
    )
    learners = {row.pk: tuple(each.student for each in row.learners.all()) for row in rows}
    return [Seat(lesson, row, learners[row.pk] if with_agreed else (), is_own=False) for row in rows]


def seat_at(by: User, lesson: str, place: str) -> Seat:
    """A bench of a lesson for staff, or the learner's own one; anybody else's is 404.

    What was agreed with the learners stands on the sheet only for who teaches the lesson.
    """
    if not roles_of(by) & STAFF:
        seat = own_seat(by, lesson)
        if seat.place.code != place:
            raise Http404("Not your bench.")
        return seat
    found = lesson_for(by, lesson)
    row = (
        Place.objects.filter(code=place, shift__lesson=found)
        .select_related("bench", "dish", "shift", "version__recipe")
        .prefetch_related("learners__student__user")
        .first()
    )
    if row is None:
        raise Http404("No such bench.")
    learners = tuple(each.student for each in row.learners.all()) if teaches(by, found) else ()
    return Seat(found, row, learners, is_own=False)
