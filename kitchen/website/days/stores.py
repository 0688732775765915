"""What stores and technician do next."""

from datetime import date, timedelta

from django.urls import reverse

from curriculum.people.models import User
from curriculum.wording import sentence, short_date
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Lot
from kitchen.stores.moves.expiring.queries import EndingRow, expiring
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


def dated_line(row: EndingRow, today: date) -> DayLine:
    """A lot by its last day, with the first lesson that could use it."""
    past = row.days < 0
    last = today + timedelta(row.days)
    return DayLine(
        figure=f"{last.day} {last:%b}",
        words=f"{row.lot.food.name}, lot {row.lot.code}",
        url=reverse("stores:lot", kwargs={"code": row.lot.code}),
        detail=_ending_words(row, today),
        state="late" if past else "todo",
        state_words=sentence(row.left).rstrip("."),
        hand=row.gone,
    )


def _ending_words(row: EndingRow, today: date) -> str:
    if row.gone:
        return "Past its last day: take it out."
    if row.days < 0:
        return "Past its best-before date: look at it, then decide."
    if not row.lessons:
        return "No lesson planned takes it."
    first = row.lessons[0]
    return f"Could go into {first.title}, {short_date(first.on, today)}."


def all_ending_line() -> DayLine:
    """The way to everything that ends within two weeks."""
    return DayLine(
        figure="",
        words="Expiring soon",
        url=reverse("stores:expiring"),
        detail="Two weeks ahead, with the lessons that could use it.",
    )


def all_waiting_line() -> DayLine:
    """The way to every requisition that waits, by cut-off."""
    return DayLine(
        figure="",
        words="Requisitions that wait",
        url=reverse("stores:requisitions"),
        detail="By the cut-off of the suppliers, with what is too late and what hangs on cancelled lessons.",
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
    waiting = [all_waiting_line()] * bool(work)
    ending = [row for row in expiring(today, queries.USE_SOON_DAYS) if not row.lot.held][:12]
    dated = [dated_line(row, today) for row in ending] + [all_ending_line()] * bool(ending)
    held = [held_line(lot) for lot in queries.lots_held()]
    return DayPage(
        facts=f"{number_words(len(work), 'thing')} to do for {number_words(len(lessons), 'lesson').lower()}.",
        next=next_lesson_plate(lessons, progress, today),
        sections=[
            DaySection(
                "For the lessons", work + waiting, "Every lesson of the next two weeks has what it asked for."
            ),
            DaySection("Dates", dated, "No lot ends in the next seven days."),
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
