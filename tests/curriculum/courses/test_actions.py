"""A term and a scheme of work are written down with their units and planned lessons."""

from datetime import date

import pytest

from curriculum.courses.actions import add_course, add_term
from curriculum.courses.entries import CourseEntry, OutcomeEntry, PlannedEntry, UnitEntry
from curriculum.courses.models import Course, Holiday, PlannedLesson, Term
from curriculum.people.models import Group, User
from curriculum.techniques.models import Technique


@pytest.fixture
def manager(db):
    """Who keeps courses; the group and the technique stand."""
    user = User.objects.create_user("hilde", "Hilde Rickmans")
    Group.objects.create(code="B1", year=2027, name="Bakers", lecturer=user)
    Technique.objects.create(code="weighing", name="Weighing", level="foundation", cue="Zero first.")
    return user


def course(**planned):
    """One course with one unit and two lessons in its first week."""
    outcome = OutcomeEntry("1.1", "Weighs", ("weighing",))
    lessons = tuple(PlannedEntry(1, date(2027, 1, day), "practical", **planned) for day in (5, 6))
    return CourseEntry("bakery", "Bakery", "B1", (UnitEntry("u1", "First", (outcome,)),), lessons)


def test_lessons_of_one_week_are_numbered_in_their_order(manager):
    add_course(entry=course(), by=manager)
    assert list(PlannedLesson.objects.values_list("week", "number", "on")) == [
        (1, 1, date(2027, 1, 5)),
        (1, 2, date(2027, 1, 6)),
    ]
    made = Course.objects.get()
    assert made.group.code == "B1"
    assert made.units.get().outcomes.get().techniques.get().code == "weighing"


def test_a_planned_dish_that_is_not_in_the_book_leaves_nothing_half_written(manager):
    with pytest.raises(KeyError):
        add_course(entry=course(dish="R99"), by=manager)
    assert not Course.objects.exists()


def test_a_lesson_before_the_first_week_is_never_made():
    with pytest.raises(ValueError, match="before the first week"):
        CourseEntry("bakery", "Bakery", "B1", (), (PlannedEntry(0, date(2027, 1, 5), "practical"),))


def test_a_term_brings_its_closed_days_once(manager):
    for _ in range(2):
        add_term(
            name="Spring",
            from_on=date(2027, 1, 4),
            until_on=date(2027, 3, 28),
            closed_on=[date(2027, 3, 26)],
            by=manager,
        )
    assert Term.objects.count() == 2
    assert list(Holiday.objects.values_list("on", flat=True)) == [date(2027, 3, 26)]
