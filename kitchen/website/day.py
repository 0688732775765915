"""The first page of each role, assembled from what stands in the books.

Each function takes a person and a day and gives a ``DayPage``: the one thing that
comes now as a plate, then dockets by urgency. Nothing here changes anything.
"""

from dataclasses import dataclass, field
from datetime import date, time

from django.urls import reverse

from assessments.feedback.models import HandedBack
from curriculum.people.access import student_of
from curriculum.people.models import User
from curriculum.people.roles import (
    EXTERNAL,
    LECTURER,
    MANAGER,
    SECOND_MARKER,
    STORES,
    STUDENT,
    TECHNICIAN,
    VERIFIER,
)
from kitchen.lessons.models import Lesson, PlaceLearner
from kitchen.website import queries
from kitchen.website.stations import (
    Progress,
    Task,
    kits_station,
    lecturer_tasks,
    plan_station,
    requisition_station,
    stores_tasks,
)

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
    todays = sum(lesson.on == today for lesson in coming)
    return DayPage(
        facts=f"{number_words(todays, 'lesson')} today, "
        f"{number_words(len(before), 'thing').lower()} to do before the next ones.",
        next=next_lesson_plate(lessons, progress, today),
        sections=[
            DaySection("Before the lessons", before, "Nothing waits before the next lessons."),
            DaySection("Marks and feedback", after, "No marks and no feedback wait."),
            DaySection(
                "The next two weeks", [coming_line(each, today) for each in coming], "No lesson is booked."
            ),
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


def number_words(count: int, thing: str) -> str:
    """ "No lesson", "One lesson", "Three lessons"; figures from thirteen on."""
    words = NUMBERS
    number = words[count] if count < len(words) else str(count)
    return f"{number} {thing}{'' if count == 1 or count == 0 else 's'}"


def stores_day(user: User, today: date) -> DayPage:
    """What stores and technician do next: kits by lesson, then lots by date and lots held."""
    lessons = queries.lessons_to_supply(today)
    progress = queries.progress_of(lessons)
    work = [
        task_line(task, lesson, today) for lesson in lessons for task in stores_tasks(progress[lesson.pk])
    ]
    dated = [
        DayLine(
            figure=f"{lot.date.day} {lot.date:%b}",
            words=f"{lot.food.name}, lot {lot.code}",
            url=reverse("stores:lot", kwargs={"lot": lot.code}),
            detail="Past its use-by: take it out." if lot.date < today else "Use it first.",
            state="late" if lot.date < today else "todo",
            state_words="Past" if lot.date < today else "Use by",
            hand=lot.date < today,
        )
        for lot in queries.lots_to_use(today)
    ]
    held = [
        DayLine(
            "",
            f"{lot.food.name}, lot {lot.code}",
            reverse("stores:lot", kwargs={"lot": lot.code}),
            lot.held_why,
            "stopped",
            "Held",
        )
        for lot in queries.lots_held()
    ]
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
    return NextPlate(
        figure=figure_of(lesson, today),
        words=row.place.version.recipe.title,
        detail=f"{day_words(lesson.on, today).capitalize()} at {clock(lesson.starts)}, {lesson.room.name}, "
        f"bench {row.place.bench.number}.",
        url=lesson_url("sheets:own", lesson),
        button="Read your sheet",
    )


def given_line(given: HandedBack) -> DayLine:
    """Feedback that was handed back."""
    return DayLine(
        figure=f"{given.at.day} {given.at:%b}",
        words=given.sitting.brief.lesson.title,
        url=reverse("feedback:read", kwargs={"sitting": given.sitting.code}),
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


def marker_day(user: User, today: date) -> DayPage:
    """Sheets that this marker has not submitted."""
    sheets = queries.sheets_to_mark(user)
    lines = [
        DayLine(
            figure=f"{sheet.sitting.brief.lesson.on.day} {sheet.sitting.brief.lesson.on:%b}",
            words=sheet.sitting.student.user.name,
            url=lesson_url("marking:lesson", sheet.sitting.brief.lesson),
            detail=sheet.sitting.brief.lesson.title,
            state="todo",
            state_words=sheet.get_part_display(),
        )
        for sheet in sheets
    ]
    facts = f"{number_words(len(lines), 'sheet')} to mark."
    return DayPage(facts, None, [DaySection("To mark", lines, "No sheet waits for you.")])


def verifier_day(user: User, today: date) -> DayPage:
    """Briefs to check before they are used, and lessons whose sheets are in."""
    briefs = [
        DayLine(
            figure=f"{brief.lesson.on.day} {brief.lesson.on:%b}",
            words=f"Check the brief of {brief.lesson.title}",
            url=lesson_url("marking:lesson", brief.lesson),
            detail=f"{brief.lesson.group.code}, {brief.scheme_version.scheme.name}. "
            f"Written by {brief.written_by.name}; marking waits for it.",
            state="todo",
            state_words="Not checked",
        )
        for brief in queries.briefs_to_check(user)
    ]
    submitted = [
        DayLine(
            figure=f"{row['brief__lesson__on'].day} {row['brief__lesson__on']:%b}",
            words=row["brief__lesson__title"],
            url=reverse("marking:lesson", kwargs={"lesson": row["brief__lesson__code"]}),
            detail=f"{row['brief__lesson__group__code']}, {row['n']} learners marked.",
        )
        for row in queries.submitted_lessons()
    ]
    return DayPage(
        f"{number_words(len(briefs), 'brief')} to check.",
        None,
        [
            DaySection("Briefs to check", briefs, "No brief waits to be checked."),
            DaySection("Marks that are in", submitted, "No sheet was submitted yet."),
        ],
    )


def manager_day(user: User, today: date) -> DayPage:
    """The lessons of the next two weeks with what is not ready."""
    lessons = queries.lessons_to_supply(today)
    progress = queries.progress_of(lessons)
    lines = [
        DayLine(
            figure=figure_of(lesson, today),
            words=lesson.title,
            url=lesson_url("website:lesson", lesson),
            detail=f"{lesson_detail(lesson, today)} {lesson.lecturer.name}.",
            state=plan_station(progress[lesson.pk]).state,
            state_words=f"Time plan: {plan_station(progress[lesson.pk]).words}",
        )
        for lesson in lessons
    ]
    facts = f"{number_words(len(lines), 'lesson')} in the next two weeks."
    return DayPage(
        facts, None, [DaySection("The lessons", lines, "No lesson is booked in the next two weeks.")]
    )


def external_day(user: User, today: date) -> DayPage:
    """The samples that an external examiner reads."""
    lines = [
        DayLine(
            figure=f"{sample.at.day} {sample.at:%b}",
            words=f"Sample {sample.code}",
            url=reverse("verification:samples"),
            detail=f"{sample.n} pieces, drawn by {sample.by.name}.",
        )
        for sample in queries.samples_open()
    ]
    return DayPage(
        f"{number_words(len(lines), 'sample')} to read.",
        None,
        [DaySection("Samples", lines, "No sample is drawn yet. The internal verifier draws it.")],
    )


DAYS = (
    (LECTURER, lecturer_day),
    (STORES, stores_day),
    (TECHNICIAN, stores_day),
    (SECOND_MARKER, marker_day),
    (VERIFIER, verifier_day),
    (MANAGER, manager_day),
    (EXTERNAL, external_day),
    (STUDENT, student_day),
)


def day_page(user: User, held: frozenset[str], today: date) -> DayPage:
    """The first page of somebody who holds these roles: the first role's page, then the others' dockets."""
    pages: list[DayPage] = []
    made_by = []
    for role, make in DAYS:
        if role in held and make not in made_by:
            made_by.append(make)
            pages.append(make(user, today))
    if not pages:
        return DayPage("No role is given to you yet. The programme manager gives it.", None, [])
    sections = [section for page in pages for section in page.sections]
    return DayPage(pages[0].facts, next((page.next for page in pages if page.next), None), sections)
