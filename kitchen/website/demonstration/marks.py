"""Keeps the schemes of the demonstration and marks its first lesson, mark by mark, as at the bench."""

from datetime import datetime
from zoneinfo import ZoneInfo

from django.db import transaction

from assessments.feedback.actions import hand_back
from assessments.marking.actions import give_mark, name_marker, open_sittings, submit_sheet
from assessments.marking.entry import elapsed_milli
from assessments.marking.models import Sheet, Sitting
from assessments.marking.queries import sitting_data
from assessments.schemes.actions import check_briefs, keep_scheme, write_briefs
from assessments.schemes.models import Brief
from assessments.schemes.queries import version_of
from assessments.verification.actions import draw_sample
from curriculum.people.models import User
from curriculum.people.queries import the_college
from kitchen.lessons.models import Lesson
from kitchen.website.demonstration import files
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.stages import answer_of, key

VERIFIER = "ruth"
#: Criteria that are marked by a step, under the same name in marks.json and in the scheme.
STEPS = ("organisation", "hygiene", "appearance", "texture", "flavour")


def keep_schemes() -> None:
    """Keep every scheme of the files; one that is kept already stays as it is."""
    for scheme in files.read("schemes.json")["schemes"]:
        keep_scheme(content={"shape": 1, **scheme}, by=person("priya"))


def write_brief(lesson: Lesson, said: dict) -> None:
    """The lecturer writes the brief; nobody has checked it yet."""
    if answer_of(said["code"], "brief") is None:
        marks = marks_of(said["code"])
        write_briefs(
            lesson=lesson,
            scheme_version=version_of(said["scheme"]),
            techniques=marks["techniques"] if marks else (),
            minutes=said.get("cooking_minutes"),
            by=person(said["lecturer"]),
            key=key(said["code"], "brief"),
        )


def check_brief(lesson: Lesson) -> None:
    """The verifier checks the brief."""
    if Brief.objects.filter(lesson=lesson, checked_by=None).exists():
        check_briefs(lesson=lesson, by=person(VERIFIER))


def open_sheets(lesson: Lesson, said: dict) -> None:
    """Open the sheets of a lesson that several people mark, and name those beside the lecturer."""
    if "markers" not in said or open_sittings_of(lesson):
        return
    lecturer = person(said["lecturer"])
    with transaction.atomic():
        open_sittings(lesson=lesson, by=lecturer)
        for code in said["markers"]:
            name_marker(lesson=lesson, marker=person(code), by=lecturer)


def marks_of(code: str) -> dict | None:
    """What marks.json says of a lesson; None for a lesson that nobody has marked yet."""
    lessons = files.read("marks.json")["lessons"]
    return next((each for each in lessons if each["lesson"] == code), None)


def mark(lesson: Lesson, said: dict) -> None:
    """Open the sheets and give every mark of the files; a sheet that was handed in is left alone.

    The second marker is named before the first sheet is handed in, and marks each plate by themselves.
    """
    marks = marks_of(said["code"])
    if marks is None:
        return
    lecturer, second = person(said["lecturer"]), person(marks["second_marker"])
    if not open_sittings_of(lesson):
        with transaction.atomic():
            open_sittings(lesson=lesson, by=lecturer)
            name_marker(lesson=lesson, marker=second, by=lecturer)
    _mark_part(lesson, said, marks, Sheet.Part.FIRST, lecturer)
    _mark_part(lesson, said, marks, Sheet.Part.SECOND, second)


def open_sittings_of(lesson: Lesson) -> bool:
    """Whether the sheets of a lesson were opened already."""
    return Sitting.objects.filter(brief__lesson=lesson).exists()


@transaction.atomic
def _mark_part(lesson: Lesson, said: dict, marks: dict, part: str, marker: User) -> None:
    sheets = Sheet.objects.filter(sitting__brief__lesson=lesson, part=part, submitted_at=None)
    by_learner = {
        sheet.sitting.student.user.username: sheet
        for sheet in sheets.select_related("sitting__student__user", "sitting__brief")
    }
    for first in marks["sheets"]:
        sheet = by_learner.get(first["learner"])
        if sheet is not None and sheet.sitting.state == Sitting.State.OPEN:
            each = first if part == Sheet.Part.FIRST else seen_by_second(first, marks)
            _mark_one(sheet, each, said, marks["another_technique"], marker)


def seen_by_second(first: dict, marks: dict) -> dict:
    """The second marker's sheet: what the file says they saw otherwise, laid on the first one's.

    Faults and words are the first marker's own.
    """
    otherwise = marks["seen_by_second"][first["learner"]]
    same = {name: value for name, value in first.items() if name not in ("faults", "words")}
    return {**same, **otherwise, "techniques": {**first["techniques"], **otherwise.get("techniques", {})}}


def _mark_one(sheet: Sheet, each: dict, said: dict, otherwise: int, marker: User) -> None:
    faults = each.get("faults", [])
    whose = () if sheet.part == Sheet.Part.FIRST else (sheet.part,)
    for place, milli in _values(sheet, each, otherwise).items():
        code = place.partition(".")[2]
        give_mark(
            sheet=sheet,
            place=place,
            milli=milli,
            by=marker,
            faults=[fault for fault in faults if code and fault.startswith(f"{code}_")],
            words=each.get("words", "") if place == "hygiene" else "",
            key=key(said["code"], "mark", each["learner"], place, *whose),
        )
    submit_sheet(sheet=sheet, by=marker)


def _values(sheet: Sheet, each: dict, otherwise: int) -> dict[str, int]:
    """Place on the sheet -> value in thousandths of its unit. ``otherwise`` is for other techniques."""
    start = sitting_data(sheet.sitting).start
    techniques = {
        f"technique.{code}": each["techniques"].get(code, otherwise) * 1000
        for code in sheet.sitting.brief.techniques
    }
    return {
        **{name: each[name] * 1000 for name in STEPS[:2]},
        **techniques,
        **{name: each[name] * 1000 for name in STEPS[2:]},
        "portion_weight": each["portion_milligrams"],
        "food_temperature": each["food_decicelsius"] * 100,
        "timing": elapsed_milli(start, _presented(sheet, each["presented"])),
        "core_not_reached": each["core_decicelsius"] * 100,
    }


def _presented(sheet: Sheet, at: str) -> datetime:
    day = sheet.sitting.brief.lesson.on
    clock = datetime.strptime(at, "%H:%M").time()
    return datetime.combine(day, clock, ZoneInfo(the_college().time_zone))


def give_feedback_back(lesson: Lesson, said: dict) -> None:
    """Hand the feedback back to the learners whom marks.json names; the others still wait."""
    marks = marks_of(said["code"])
    if marks is None:
        return
    lecturer = person(said["lecturer"])
    sittings = Sitting.objects.filter(
        brief__lesson=lesson, student__user__username__in=marks["handed_back"], handed_back=None
    )
    for sitting in sittings.order_by("pk"):
        hand_back(sitting=sitting, by=lecturer, key=key(said["code"], "feedback", sitting.student_id))


def draw_for_verifier(lesson: Lesson, said: dict) -> None:
    """The verifier draws a sample from the lesson by a written seed; the examiner reads it."""
    if marks_of(said["code"]) is not None and answer_of(said["code"], "sample") is None:
        draw_sample(
            lessons=[lesson.code],
            seed=f"{said['title']} {said['date']}",
            by=person(VERIFIER),
            key=key(said["code"], "sample"),
        )
