"""What second marker, verifier, programme manager and external examiner do next."""

from datetime import date

from django.urls import reverse

from assessments.schemes.models import Brief
from curriculum.people.models import User
from kitchen.website import queries
from kitchen.website.days.book import book_sections
from kitchen.website.days.parts import (
    DayLine,
    DayPage,
    DaySection,
    figure_of,
    lesson_detail,
    lesson_url,
    number_words,
)
from kitchen.website.stations import plan_station


def marker_day(user: User, today: date) -> DayPage:
    """Sheets that this marker has not submitted."""
    sheets = queries.sheets_to_mark(user)
    lines = [
        DayLine(
            figure=f"{sheet.sitting.brief.lesson.on.day} {sheet.sitting.brief.lesson.on:%b}",
            words=sheet.sitting.student.user.name,
            url=reverse(
                "marking:sheet",
                kwargs={
                    "lesson": sheet.sitting.brief.lesson.code,
                    "learner": sheet.sitting.student.college_number,
                },
            ),
            detail=sheet.sitting.brief.lesson.title,
            state="todo",
            state_words=sheet.get_part_display(),
        )
        for sheet in sheets
    ]
    facts = f"{number_words(len(lines), 'sheet')} to mark."
    return DayPage(facts, None, [DaySection("To mark", lines, "No sheet waits for you.")])


def by_lesson(briefs: list[Brief]) -> list[list[Brief]]:
    """The briefs of each lesson together, in the order of the lessons; a variant has a brief of its own."""
    found: dict[int, list[Brief]] = {}
    for brief in briefs:
        found.setdefault(brief.lesson_id, []).append(brief)
    return list(found.values())


def brief_line(briefs: list[Brief]) -> DayLine:
    """The briefs of one lesson that wait to be checked."""
    first = briefs[0]
    count = "The brief" if len(briefs) == 1 else f"{number_words(len(briefs), 'brief')}"
    return DayLine(
        figure=f"{first.lesson.on.day} {first.lesson.on:%b}",
        words=f"{count} of {first.lesson.title}",
        url=lesson_url("schemes:brief", first.lesson),
        detail=f"{first.lesson.group.code}, {first.scheme_version.scheme.name}. "
        f"Written by {first.written_by.name}; marking waits until another person has checked it.",
        state="todo",
        state_words="Not checked",
    )


def verifier_day(user: User, today: date) -> DayPage:
    """Briefs to check before they are used, and lessons whose sheets are in."""
    briefs = [brief_line(rows) for rows in by_lesson(queries.briefs_to_check(user))]
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
    section = DaySection("The lessons", lines, "No lesson is booked in the next two weeks.")
    return DayPage(facts, None, [section, *book_sections(user)])


def external_day(user: User, today: date) -> DayPage:
    """The samples that an external examiner reads."""
    lines = [
        DayLine(
            figure=f"{sample.at.day} {sample.at:%b}",
            words=f"Sample {sample.code}",
            url=reverse("verification:sample", kwargs={"code": sample.code}),
            detail=f"{sample.n} pieces, drawn by {sample.by.name}.",
        )
        for sample in queries.samples_open()
    ]
    return DayPage(
        f"{number_words(len(lines), 'sample')} to read.",
        None,
        [DaySection("Samples", lines, "No sample is drawn yet. The internal verifier draws it.")],
    )
