"""What a learner does next."""

from datetime import date

from django.urls import reverse

from assessments.feedback.models import HandedBack
from curriculum.people.access import student_of
from curriculum.people.models import User
from kitchen.lessons.models import PlaceLearner
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


def student_day(user: User, today: date) -> DayPage:
    """A learner's next place with the recipe sheet, and feedback that was handed back."""
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
            DaySection("Feedback", given, "Nothing was handed back yet."),
        ],
    )
