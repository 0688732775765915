"""Writing down terms, closed days, courses and their schemes of work."""

from collections.abc import Iterable
from datetime import date

from django.db import transaction

from curriculum.courses.entries import CourseEntry, PlannedEntry, UnitEntry
from curriculum.courses.models import Course, Holiday, Outcome, PlannedLesson, Term, Unit
from curriculum.people.models import Group, User
from curriculum.recipes.models import Recipe
from curriculum.techniques.models import Technique


@transaction.atomic
def add_term(*, name: str, from_on: date, until_on: date, closed_on: Iterable[date], by: User) -> Term:
    """Add a term with the days on which the college is closed."""
    term = Term(name=name, from_on=from_on, until_on=until_on)
    term.full_clean()
    term.save()
    Holiday.objects.bulk_create((Holiday(on=day) for day in closed_on), ignore_conflicts=True)
    return term


@transaction.atomic
def add_course(*, entry: CourseEntry, by: User) -> Course:
    """Add a course with its units, outcomes and planned lessons. KeyError for an unknown code."""
    group = Group.objects.filter(code=entry.group).order_by("-year").first()
    course = Course.objects.create(code=entry.code, name=entry.name, group=group)
    techniques = {technique.code: technique for technique in Technique.objects.all()}
    for unit in entry.units:
        _add_unit(course, unit, techniques)
    recipes = {recipe.code: recipe for recipe in Recipe.objects.all()}
    PlannedLesson.objects.bulk_create(_planned(course, entry.planned, recipes))
    return course


def _add_unit(course: Course, entry: UnitEntry, techniques: dict[str, Technique]) -> None:
    unit = Unit.objects.create(course=course, code=entry.code, name=entry.name)
    for each in entry.outcomes:
        outcome = Outcome.objects.create(unit=unit, code=each.code, name=each.name)
        outcome.techniques.set([techniques[code] for code in each.techniques])


def _planned(
    course: Course, entries: tuple[PlannedEntry, ...], recipes: dict[str, Recipe]
) -> Iterable[PlannedLesson]:
    """Rows of the planned lessons, numbered within their week."""
    numbers: dict[int, int] = {}
    for entry in entries:
        numbers[entry.week] = numbers.get(entry.week, 0) + 1
        yield PlannedLesson(
            course=course,
            week=entry.week,
            number=numbers[entry.week],
            on=entry.on,
            kind=entry.kind,
            recipe=recipes[entry.dish] if entry.dish else None,
            inputs=entry.inputs,
            note=entry.note,
        )
