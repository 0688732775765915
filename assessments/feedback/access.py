"""Who writes feedback, who hands it back, who reads it: fetch or refuse.

A learner reads only what was handed back to them: before that, and for anybody else's,
there is nothing there (404). A cover lecturer reads and drafts, and does not hand back.
"""

from django.http import Http404

from assessments.feedback.models import HandedBack
from assessments.feedback.queries import latest_handed_back
from assessments.marking.access import latest_row
from assessments.marking.queries import SittingRow
from curriculum.people.access import demand_role, student_of
from curriculum.people.models import User
from curriculum.people.roles import LECTURER
from kitchen.lessons.access import lesson_to_teach
from kitchen.lessons.models import Lesson


def lesson_for_feedback(by: User, code: str) -> Lesson:
    """A lesson whose feedback the person drafts: its lecturer or cover."""
    return lesson_to_teach(by, code)


def may_hand_back(by: User, lesson: Lesson) -> bool:
    """Only the lesson's own lecturer hands back."""
    return lesson.lecturer_id == by.pk


def lesson_to_hand_back(by: User, code: str) -> Lesson:
    """A lesson whose feedback the person hands back; a cover's is 404 here, like anybody else's."""
    demand_role(by, LECTURER)
    lesson = lesson_to_teach(by, code)
    if not may_hand_back(by, lesson):
        raise Http404("Not yours to hand back.")
    return lesson


def sitting_for_feedback(by: User, code: str, college_number: str) -> SittingRow:
    """The sitting of a learner whose feedback the person drafts."""
    return latest_row(lesson_for_feedback(by, code), college_number)


def sitting_to_hand_back(by: User, code: str, college_number: str) -> SittingRow:
    """The sitting of a learner whose feedback the person hands back."""
    return latest_row(lesson_to_hand_back(by, code), college_number)


def handed_back_for(by: User, sitting_code: str) -> HandedBack:
    """What the learner was given for one sitting; not handed back, or not theirs, is 404."""
    student = student_of(by)
    found = latest_handed_back().filter(sitting__code=sitting_code, sitting__student=student).first()
    if found is None:
        raise Http404("Nothing was handed back here.")
    return found
