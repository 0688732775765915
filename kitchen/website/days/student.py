"""What a learner does next."""

from datetime import date

from django.urls import reverse

from assessments.feedback.models import HandedBack
from curriculum.people.access import student_of
from curriculum.people.models import Student, User
from kitchen.lessons.models import Lesson, PlaceLearner
from kitchen.timeplan.own_order.models import OwnOrder
from kitchen.timeplan.own_order.queries import assessed_lessons, newest_of_student
from kitchen.website import queries
from kitchen.website.days.parts import (
    DayLine,
    DayPage,
    DaySection,
    NextPlate,
    clock,
    day_words,
    figure_of,
    lesson_url,
    number_words,
)


def sheet_line(row: PlaceLearner, today: date) -> DayLine:
    """A learner's place with the recipe sheet made for it."""
    lesson = row.shift.lesson
    return DayLine(
        figure=figure_of(lesson, today),
        words=row.place.version.recipe.title,
        url=lesson_url("sheets:own", lesson),
        detail=f"{lesson.room.name}, bench {row.place.bench.number}.",
    )


def sheet_plate(row: PlaceLearner, today: date) -> NextPlate:
    """The learner's next place."""
    lesson = row.shift.lesson
    when = "Today" if lesson.on == today else day_words(lesson.on, today)
    return NextPlate(
        figure=figure_of(lesson, today),
        words=row.place.version.recipe.title,
        detail=f"{when} at {clock(lesson.starts)}, {lesson.room.name}, bench {row.place.bench.number}.",
        url=lesson_url("sheets:own", lesson),
        button="Read your sheet",
    )


def given_line(given: HandedBack) -> DayLine:
    """Feedback that was handed back."""
    return DayLine(
        figure=f"{given.at.day} {given.at:%b}",
        words=given.sitting.brief.lesson.title,
        url=reverse("feedback:own", kwargs={"code": given.sitting.code}),
        detail=f"Handed back by {given.by.name}.",
    )


def order_line(row: PlaceLearner, order: OwnOrder | None, assessed: bool, today: date) -> DayLine:
    """The order of work that a learner writes for their own place."""
    lesson = row.shift.lesson
    kind, word = ("todo", "Not begun") if order is None else ("doing", "Being written")
    if order is not None and order.is_handed_in:
        kind, word = "done", "Handed in"
    closed = "Assessed: the site’s plan is shown once yours is handed in. " if assessed else ""
    return DayLine(
        figure=figure_of(lesson, today),
        words=row.place.version.recipe.title,
        url=lesson_url("timeplan:own_order", lesson),
        detail=f"{closed}Bench {row.place.bench.number}.",
        state=kind,
        state_words=word,
    )


def order_lines(student: Student, places: list[PlaceLearner], today: date) -> list[DayLine]:
    """One line for each coming lesson that is cooked. Two queries."""
    cooked = [row for row in places if row.shift.lesson.kind != Lesson.Kind.DEMONSTRATION]
    lessons = [row.shift.lesson for row in cooked]
    orders, assessed = newest_of_student(student, lessons), assessed_lessons(lessons)
    return [
        order_line(row, orders.get(lesson.pk), lesson.pk in assessed, today)
        for row, lesson in zip(cooked, lessons, strict=True)
    ]


def student_day(user: User, today: date) -> DayPage:
    """A learner's next place with recipe sheet and own order of work, and feedback that was handed back."""
    student = student_of(user)
    places = queries.places_of_student(student, today)
    coming = [row for row in places if row.shift.lesson.on >= today]
    sheets = [sheet_line(row, today) for row in places]
    given = [given_line(row) for row in queries.handed_back_to(student)]
    return DayPage(
        facts=f"{number_words(len(coming), 'lesson')} ahead.",
        next=sheet_plate(coming[0], today) if coming else None,
        sections=[
            DaySection("Recipe sheets", sheets, "No place at a bench is booked for you yet."),
            DaySection(
                "Your order of work", order_lines(student, coming, today), "No lesson of yours is coming."
            ),
            DaySection("Feedback", given, "Nothing was handed back yet."),
        ],
    )
