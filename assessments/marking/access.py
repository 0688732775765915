"""Who marks, on which sheet, and who reads marks: fetch or refuse.

Blindness is kept here: a marker reaches the own sheet and no other; what others gave is
seen by nobody before every sheet of the sitting is in (``sittings.visible_parts``).
"""

from django.http import Http404

from assessments.marking.models import Sheet, Sitting
from assessments.marking.queries import SittingRow, rows_of, with_sheets
from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER, MANAGER, SECOND_MARKER, VERIFIER
from kitchen.lessons.access import found, lesson_to_teach, teaches
from kitchen.lessons.models import Lesson

READERS = (LECTURER, SECOND_MARKER, VERIFIER, MANAGER)


def marks_lesson_for(by: User, code: str) -> Lesson:
    """A lesson whose marks page the person may open; a lecturer with no part in it gets 404."""
    held = demand_role(by, *READERS)
    lesson = found(code)
    if held & {SECOND_MARKER, VERIFIER, MANAGER} or teaches(by, lesson) or has_sheet(by, lesson):
        return lesson
    raise Http404("Not your lesson.")


def lesson_to_mark(by: User, code: str) -> Lesson:
    """A lesson for which the person opens mark sheets: its lecturer, or who covers it."""
    return lesson_to_teach(by, code)


def lesson_to_name_markers(by: User, code: str) -> Lesson:
    """A lesson whose other markers the person names: its own lecturer; a second marker only themselves."""
    held = demand_role(by, LECTURER, SECOND_MARKER)
    lesson = found(code)
    if SECOND_MARKER in held or lesson.lecturer_id == by.pk:
        return lesson
    raise Http404("Not your lesson.")


def may_mark(by: User, lesson: Lesson) -> bool:
    """Whether the person opens sheets here: the lesson's lecturer, or who covers it."""
    return teaches(by, lesson)


def may_join(by: User, lesson: Lesson) -> bool:
    """Whether a second marker may take a sheet of their own here."""
    return SECOND_MARKER in roles_of(by) and not teaches(by, lesson) and not has_sheet(by, lesson)


def may_name_others(by: User, lesson: Lesson) -> bool:
    """Only the lesson's own lecturer names other people."""
    return LECTURER in roles_of(by) and lesson.lecturer_id == by.pk


def has_sheet(by: User, lesson: Lesson) -> bool:
    """Whether the person marks somebody in this lesson."""
    return Sheet.objects.filter(sitting__brief__lesson=lesson, marker=by).exists()


def own_part(by: User, lesson: Lesson, row: SittingRow) -> str:
    """The part that the person marks of a sitting; empty when none.

    A sheet of one's own comes first: a second marker who is later made cover stays blind to
    the first marker's sheet.
    """
    for sheet in row.data.sheets:
        if sheet.marker_id == by.pk and sheet.part != Sheet.Part.AGREED:
            return sheet.part
    return Sheet.Part.FIRST if teaches(by, lesson) else ""


def latest_row(lesson: Lesson, college_number: str) -> SittingRow:
    """The latest sitting of a learner in a lesson, or 404."""
    sittings = Sitting.objects.filter(brief__lesson=lesson, student__college_number=college_number)
    latest = with_sheets(sittings.order_by("-attempt")).first()
    if latest is None:
        raise Http404("No mark sheet of this learner.")
    return rows_of([latest])[0]


def sheet_for(by: User, code: str, college_number: str) -> tuple[SittingRow, Sheet]:
    """The person's own sheet of a learner; whoever marks nobody here gets 404."""
    demand_role(by, LECTURER, SECOND_MARKER)
    lesson = found(code)
    row = latest_row(lesson, college_number)
    part = own_part(by, lesson, row)
    sheet = next((each for each in row.sitting.sheets.all() if each.part == part), None)
    if sheet is None:
        raise Http404("Not your sheet.")
    return row, sheet


def reads_cards(by: User) -> bool:
    """Whether the person reads the cards of lessons that they do not mark."""
    return bool(roles_of(by) & {VERIFIER, MANAGER})


def card_for(by: User, code: str, college_number: str) -> tuple[SittingRow, str]:
    """A sitting to read, and the person's own part in it; who has no part in the lesson gets 404."""
    lesson = marks_lesson_for(by, code)
    row = latest_row(lesson, college_number)
    part = own_part(by, lesson, row)
    if not part and not reads_cards(by):
        raise Http404("Not your sheet.")
    return row, part


def sitting_to_agree(by: User, code: str, college_number: str) -> SittingRow:
    """A sitting whose marks the person agrees: the lesson's own lecturer, not the cover."""
    demand_role(by, LECTURER)
    lesson = found(code)
    if lesson.lecturer_id != by.pk:
        raise Http404("Not your lesson.")
    return latest_row(lesson, college_number)
