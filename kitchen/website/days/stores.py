"""What stores and technician do next."""

from datetime import date, datetime, timedelta

from django.urls import reverse

from curriculum.people.models import User
from curriculum.people.queries import now_at, the_college
from curriculum.wording import sentence, short_date
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Lot
from kitchen.stores.moves.expiring.queries import EndingRow, expiring
from kitchen.stores.orders.models import Order
from kitchen.stores.orders.queries import orders_under_way
from kitchen.stores.orders.todo import Todo, send_first
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
        return "No lesson planned takes it by then."
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


def to_send_line(todo: Todo) -> DayLine:
    """An order that waits to be sent, and by when."""
    late = todo.state == "late"
    return DayLine("", todo.words, todo.target, sentence(todo.when), todo.state, todo.word, late)


def expected_line(order: Order, today: date) -> DayLine:
    """An order that was sent: its delivery is checked on its day."""
    late = order.for_on < today
    return DayLine(
        figure="Today" if order.for_on == today else f"{order.for_on:%a} {order.for_on.day}",
        words=f"Check the delivery from {order.supplier.name}",
        url=reverse("stores:deliveries"),
        detail=f"Order {order.code}.",
        state="late" if late else "waiting",
        state_words="Nobody has checked it" if late else "Expected",
        hand=late,
    )


def week_line(today: date) -> DayLine:
    """The way to what the coming week needs."""
    monday = today + timedelta(7 - today.weekday())
    return DayLine(
        figure="",
        words=f"The week of {monday.day} {monday:%B}",
        url=reverse("stores:week", kwargs={"on": monday.isoformat()}),
        detail="What its lessons need, and what is to be ordered.",
    )


def order_lines(now: datetime, today: date) -> list[DayLine]:
    """Orders to send, deliveries of the next seven days and those overdue, then the coming week.

    ``now`` is the clock on the college’s wall, without a zone.
    """
    drafts, sent = orders_under_way(today + timedelta(7))
    to_send = [to_send_line(todo) for todo in send_first(drafts, now)]
    return [*to_send, *(expected_line(order, today) for order in sent), week_line(today)]


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
            DaySection(
                "Orders and deliveries", order_lines(now_at(the_college()).replace(tzinfo=None), today)
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
