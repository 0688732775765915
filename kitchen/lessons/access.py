"""Who may look at a lesson, who may teach it, who supplies it: fetch or refuse.

Not there, or not yours to know of, is 404; a role that may never do this is 403.
A cover lecturer may teach the lesson they cover; only its own lecturer changes or
cancels it.
"""

from django.core.exceptions import PermissionDenied
from django.http import Http404

from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import Student, User
from curriculum.people.queries import members_of
from curriculum.people.roles import KITCHEN_HANDS, LECTURER, MANAGER, STAFF, STUDENT
from curriculum.recipes.models import Version
from curriculum.recipes.queries import approved
from kitchen.lessons.models import Lesson, PlaceLearner


def found(code: str) -> Lesson:
    """The lesson of that code with its room, group and people, or 404."""
    lesson = (
        Lesson.objects.filter(code=code)
        .select_related("room", "group", "lecturer", "cover", "technician")
        .first()
    )
    if lesson is None:
        raise Http404("No such lesson.")
    return lesson


def lesson_for(by: User, code: str) -> Lesson:
    """A lesson that staff may look at; 403 for learners and guests."""
    demand_role(by, *STAFF)
    return found(code)


def teaches(by: User, lesson: Lesson) -> bool:
    """Whether the person is the lecturer of the lesson or covers it."""
    return LECTURER in roles_of(by) and by.pk in (lesson.lecturer_id, lesson.cover_id)


def lesson_to_teach(by: User, code: str) -> Lesson:
    """A lesson whose lecturer or cover the person is; another lecturer's lesson is 404."""
    demand_role(by, LECTURER)
    lesson = found(code)
    if not teaches(by, lesson):
        raise Http404("Not your lesson.")
    return lesson


def lesson_to_change(by: User, code: str) -> Lesson:
    """A lesson that the person booked for themselves, or any for the programme manager."""
    held = demand_role(by, LECTURER, MANAGER)
    lesson = found(code)
    if MANAGER not in held and lesson.lecturer_id != by.pk:
        raise Http404("Not your lesson.")
    return lesson


def lesson_to_supply(by: User, code: str) -> Lesson:
    """A lesson for which the person may read kits: stores and technician, its lecturer and cover."""
    return taught_or_any(by, code, KITCHEN_HANDS)


def taught_or_any(by: User, code: str, roles: frozenset[str]) -> Lesson:
    """A lesson of one's own or covered, or any for these roles; others' 404, other roles 403."""
    held = demand_role(by, LECTURER, *roles)
    lesson = found(code)
    if not held & roles and not teaches(by, lesson):
        raise Http404("Not your lesson.")
    return lesson


def lesson_to_issue(by: User, code: str) -> Lesson:
    """A lesson for which stores or technician act."""
    demand_role(by, *KITCHEN_HANDS)
    return found(code)


def place_of_student(by: User, code: str) -> PlaceLearner:
    """The learner's own place in a lesson; anybody else's lesson is 404."""
    if STUDENT not in roles_of(by):
        raise PermissionDenied
    row = (
        PlaceLearner.objects.filter(shift__lesson__code=code, student__user=by)
        .select_related(
            "shift__lesson__room", "shift__lesson__group", "place__bench", "place__version__recipe"
        )
        .first()
    )
    if row is None:
        raise Http404("Not your lesson.")
    return row


def booker(by: User) -> frozenset[str]:
    """The roles of somebody who may book lessons: lecturers and the programme manager; 403 for others."""
    return demand_role(by, LECTURER, MANAGER)


def reader_of_lessons(by: User) -> frozenset[str]:
    """The roles of somebody who may see the list of lessons; 403 for learners and guests."""
    return demand_role(by, *STAFF)


def learner_of(lesson: Lesson, college_number: str) -> Student:
    """A learner who is in the lesson's group on its day, or 404."""
    student = members_of(lesson.group, lesson.on).filter(college_number=college_number).first()
    if student is None:
        raise Http404("No such learner in this class.")
    return student


def dish_of_the_book(code: str) -> Version:
    """The version of a recipe that is approved to teach now, or 404."""
    version = approved(code)
    if version is None:
        raise Http404("No such dish.")
    return version


def may_book(held: frozenset[str]) -> bool:
    """Whether these roles book lessons."""
    return bool(held & {LECTURER, MANAGER})
