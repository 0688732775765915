"""What a lecturer does next."""

from datetime import date

from curriculum.people.models import User
from kitchen.lessons.models import Lesson
from kitchen.website import queries
from kitchen.website.days.book import book_sections
from kitchen.website.days.parts import (
    DayLine,
    DayPage,
    DaySection,
    figure_of,
    lesson_detail,
    lesson_url,
    next_lesson_plate,
    number_words,
    task_line,
)
from kitchen.website.stations import lecturer_tasks


def lecturer_facts(todays: int, before: int, after: int) -> str:
    """How many lessons today and how much waits, in one or two sentences."""
    waits = before + after
    lessons = f"{number_words(todays, 'lesson')} today."
    if not waits:
        return f"{lessons} Nothing waits for you."
    return f"{lessons} {number_words(waits, 'thing')} to do."


def lecturer_day(user: User, today: date) -> DayPage:
    """What a lecturer does next: today, before the next lessons, and marks and feedback that wait."""
    lessons = queries.lessons_of_lecturer(user, today)
    progress = queries.progress_of(lessons)
    coming = [lesson for lesson in lessons if lesson.on >= today]
    past = [lesson for lesson in lessons if lesson.on < today]
    before = [
        task_line(task, lesson, today)
        for lesson in coming
        for task in lecturer_tasks(progress[lesson.pk], False)
    ]
    after = [
        task_line(task, lesson, today)
        for lesson in past
        for task in lecturer_tasks(progress[lesson.pk], True)
    ]
    book = book_sections(user)
    recipes = sum(len(section.lines) for section in book)
    todays = sum(lesson.on == today for lesson in coming)
    return DayPage(
        facts=lecturer_facts(todays, len(before), len(after) + recipes),
        next=next_lesson_plate(lessons, progress, today),
        sections=[
            DaySection("Before the lessons", before, "Nothing waits before the next lessons."),
            DaySection("Marks and feedback", after, "No marks and no feedback wait."),
            DaySection(
                "The next two weeks", [coming_line(each, today) for each in coming], "No lesson is booked."
            ),
            *book,
        ],
    )


def coming_line(lesson: Lesson, today: date) -> DayLine:
    """A lesson of the next days."""
    return DayLine(
        figure=figure_of(lesson, today),
        words=lesson.title,
        url=lesson_url("website:lesson", lesson),
        detail=lesson_detail(lesson, today),
    )
