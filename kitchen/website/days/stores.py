"""What stores and technician do next."""

from datetime import date

from django.urls import reverse

from curriculum.people.models import User
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Lot
from kitchen.website import queries
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
from kitchen.website.stations import Progress, kits_station, requisition_station, stores_tasks


def dated_line(lot: Lot, today: date) -> DayLine:
    """A lot by its use-by date."""
    past = lot.date < today
    return DayLine(
        figure=f"{lot.date.day} {lot.date:%b}",
        words=f"{lot.food.name}, lot {lot.code}",
        url=reverse("stores:lot", kwargs={"code": lot.code}),
        detail="Past its use-by: take it out." if past else "Use it first.",
        state="late" if past else "todo",
        state_words="Past" if past else "Use by",
        hand=past,
    )


def held_line(lot: Lot) -> DayLine:
    """A lot that is held back from use, and why."""
    return DayLine(
        figure="",
        words=f"{lot.food.name}, lot {lot.code}",
        url=reverse("stores:lot", kwargs={"code": lot.code}),
        detail=lot.held_why,
        state="stopped",
        state_words="Held",
    )


def stores_day(user: User, today: date) -> DayPage:
    """What stores and technician do next: kits by lesson, then lots by date and lots held."""
    lessons = queries.lessons_to_supply(today)
    progress = queries.progress_of(lessons)
    work = [
        task_line(task, lesson, today) for lesson in lessons for task in stores_tasks(progress[lesson.pk])
    ]
    dated = [dated_line(lot, today) for lot in queries.lots_to_use(today)]
    held = [held_line(lot) for lot in queries.lots_held()]
    return DayPage(
        facts=f"{number_words(len(work), 'thing')} to do for {number_words(len(lessons), 'lesson').lower()}.",
        next=next_lesson_plate(lessons, progress, today),
        sections=[
            DaySection("For the lessons", work, "Every lesson of the next two weeks has what it asked for."),
            DaySection("Dates", dated, "No use-by date falls in the next seven days."),
            DaySection("Held back", held, "No lot is held."),
            DaySection(
                "The lessons",
                [supply_line(each, progress[each.pk], today) for each in lessons],
                "No lesson is booked.",
            ),
        ],
    )


def supply_line(lesson: Lesson, progress: Progress, today: date) -> DayLine:
    """A lesson as the stores see it."""
    station = kits_station(progress) if progress.requisition == "approved" else requisition_station(progress)
    return DayLine(
        figure=figure_of(lesson, today),
        words=lesson.title,
        url=lesson_url("stores:kits", lesson),
        detail=lesson_detail(lesson, today),
        state=station.state,
        state_words=f"{station.name}: {station.words}",
    )
