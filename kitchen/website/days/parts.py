"""What a first page is made of, and the small words that all of them use.

A page is the one thing that comes now as a plate, then dockets by urgency.
"""

from dataclasses import dataclass, field
from datetime import date, time

from django.urls import reverse

from kitchen.lessons.models import Lesson
from kitchen.website.stations import Progress, Task, kits_station, plan_station

NUMBERS = (
    *("No", "One", "Two", "Three", "Four", "Five", "Six"),
    *("Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"),
)


@dataclass(frozen=True, slots=True)
class DayLine:
    """One docket line: by when, what (a link), why, and the state in shape and word."""

    figure: str
    words: str
    url: str
    detail: str = ""
    state: str = ""
    state_words: str = ""
    hand: bool = False
    small: str = ""


@dataclass(frozen=True, slots=True)
class DaySection:
    """A docket with its heading, and what to say when it is empty."""

    heading: str
    lines: list[DayLine]
    empty: str = ""


@dataclass(frozen=True, slots=True)
class NextPlate:
    """The thing that comes now."""

    figure: str
    words: str
    detail: str
    url: str
    button: str
    states: list[tuple[str, str]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class DayPage:
    """The whole first page of one person."""

    facts: str
    next: NextPlate | None
    sections: list[DaySection]


def lesson_url(name: str, lesson: Lesson) -> str:
    """The address of one page of a lesson."""
    return reverse(name, kwargs={"lesson": lesson.code})


def clock(at: time) -> str:
    """A time of day as printed."""
    return f"{at:%H:%M}"


def day_words(on: date, today: date) -> str:
    """Today's clock has no day; another day is short, "Tue 16 Feb"."""
    return "today" if on == today else f"{on:%a} {on.day} {on:%b}"


def figure_of(lesson: Lesson, today: date) -> str:
    """By when: the clock today, the day otherwise."""
    return clock(lesson.starts) if lesson.on == today else f"{lesson.on:%a} {lesson.on.day}"


def lesson_detail(lesson: Lesson, today: date) -> str:
    """When, who and where, in one sentence."""
    when = "" if lesson.on == today else f"{day_words(lesson.on, today)}, {clock(lesson.starts)}. "
    return f"{when}{lesson.group.code}, {lesson.room.name}."


def next_lesson_plate(lessons: list[Lesson], progress: dict[int, Progress], today: date) -> NextPlate | None:
    """The next lesson that is not past, as the plate."""
    coming = [lesson for lesson in lessons if lesson.on >= today]
    if not coming:
        return None
    lesson = coming[0]
    stations = [plan_station(progress[lesson.pk]), kits_station(progress[lesson.pk])]
    return NextPlate(
        figure=clock(lesson.starts) if lesson.on == today else f"{lesson.on:%a} {lesson.on.day}",
        words=lesson.title,
        detail=lesson_detail(lesson, today),
        url=lesson_url("website:lesson", lesson),
        button="Open the lesson",
        states=[(station.state, f"{station.name}: {station.words}") for station in stations],
    )


def task_line(task: Task, lesson: Lesson, today: date) -> DayLine:
    """A task of a lesson as a docket line."""
    return DayLine(
        figure=figure_of(lesson, today),
        words=task.what,
        url=lesson_url(task.url_name, lesson),
        detail=f"{lesson.title}, {lesson.group.code}. {task.why}",
        state="late" if task.copper else "todo",
        state_words="Needs you" if task.copper else "To do",
        hand=task.copper,
    )


def number_words(count: int, thing: str) -> str:
    """ "No lesson", "One lesson", "Three lessons"; figures from thirteen on."""
    words = NUMBERS
    number = words[count] if count < len(words) else str(count)
    return f"{number} {thing}{'' if count == 1 or count == 0 else 's'}"
