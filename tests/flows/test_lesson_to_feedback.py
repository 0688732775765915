"""From the register through the marks to feedback that only its own learner reads."""

import pytest

from assessments.feedback.models import HandedBack
from assessments.marking.models import MarkEntry, Sheet, Sitting
from curriculum.people.models import User
from tests.builders.cast import build_cast
from tests.builders.marking import WEAK, a_fault, kept_scheme
from tests.flows.person import Person

pytestmark = pytest.mark.django_db

STEP = "technique.rubbing_in"


@pytest.fixture
def cast():
    made = build_cast()
    a_fault()
    kept_scheme(made)
    return made


@pytest.fixture
def here(cast):
    return {"lesson": cast.lesson.code}


@pytest.fixture
def sheet_here(cast, here):
    return {**here, "learner": cast.learner.college_number}


def register(cast, here):
    """The lecturer notes one learner as there and the other as absent."""
    lecturer = Person(cast.lecturer)
    for student, state in ((cast.learner, "present"), (cast.partner, "absent")):
        lecturer.open("lessons:attendance", **here)
        number = student.college_number
        lecturer.send(where={"learner": number}, state=state)


def briefed(cast, here):
    """The lecturer writes the brief; another person checks it."""
    lecturer, verifier = Person(cast.lecturer), Person(cast.verifier)
    lecturer.open("schemes:brief", **here)
    lecturer.send(techniques="rubbing_in", minutes="135")
    verifier.open("schemes:brief", **here)
    verifier.send("schemes:check", kwargs=here)


def marked(cast, here, sheet_here):
    """The lecturer opens the sheets, gives every mark of one learner, and submits."""
    lecturer = Person(cast.lecturer)
    lecturer.open("marking:lesson", **here)
    lecturer.send("marking:open", kwargs=here)
    given = {place: str(value) for place, value in WEAK.items()} | {"timing": "11:30"}
    for place, value in given.items():
        lecturer.open("marking:sheet", **sheet_here)
        faults = {"faults": ["rubbing_in_1"]} if place == STEP else {}
        lecturer.send("marking:give", kwargs=sheet_here, where={"place": place}, value=value, **faults)
    lecturer.open("marking:sheet", **sheet_here)
    lecturer.send("marking:submit", kwargs=sheet_here)
    return Sitting.objects.get(student=cast.learner)


def handed_back(cast, here, sheet_here):
    lecturer = Person(cast.lecturer)
    lecturer.open("feedback:write", **sheet_here)
    lecturer.send(next_time="Keep the fat cold")
    lecturer.open("feedback:write", **sheet_here)
    lecturer.send("feedback:hand_back", kwargs=sheet_here)


@pytest.fixture
def sitting(cast, here, sheet_here):
    register(cast, here)
    briefed(cast, here)
    return marked(cast, here, sheet_here)


def test_only_who_was_there_is_marked_and_every_mark_has_its_maker(cast, sitting):
    assert [each.student for each in Sitting.objects.all()] == [cast.learner]
    entries = MarkEntry.objects.all()
    assert len(entries) == len(WEAK)
    assert {entry.by for entry in entries} == {cast.lecturer}
    assert Sheet.objects.get().submitted_at is not None


def test_the_marker_sees_the_arithmetic(cast, sitting, sheet_here):
    lecturer = Person(cast.lecturer)
    lecturer.open("marking:card", **sheet_here)
    lecturer.sees(
        "Product: texture, 5 of 10", "Rubbing in, 1 of 3", "Sum 60 of 100", "held at 39", "39 of 100"
    )


def test_before_it_is_handed_back_the_learner_sees_nothing(cast, sitting):
    student = Person(cast.student)
    student.open("feedback:list")
    assert sitting.code not in student.page
    student.open("feedback:own", status=404, code=sitting.code)
    student.open("feedback:paper", status=404, code=sitting.code)


def test_handed_back_the_learner_reads_marks_cue_cause_remedy_and_the_next_step(
    cast, here, sheet_here, sitting
):
    handed_back(cast, here, sheet_here)
    student = Person(cast.student)
    student.open("feedback:list")
    student.sees("Shortbread")
    student.open("feedback:own", code=sitting.code)
    student.sees(
        "Keep the fat cold",
        "Fine crumbs that hold when pressed",
        "The crumb is greasy and clumps",
        "The fat was soft and warm hands worked it too long",
        "Chill the bowl for ten minutes",
    )
    paper = student.open("feedback:paper", code=sitting.code)
    assert paper.content.startswith(b"%PDF")


def test_nobody_else_reads_it(cast, here, sheet_here, sitting):
    handed_back(cast, here, sheet_here)
    partner = User.objects.get(username="partner")
    for other, status in (
        (cast.other_student, 404),
        (partner, 404),
        (cast.other_lecturer, 403),
        (cast.external, 403),
        (cast.stores, 403),
    ):
        Person(other).open("feedback:own", status=status, code=sitting.code)
    Person(None).open("feedback:own", status=302, code=sitting.code)
    mine = Person(cast.other_student)
    mine.open("feedback:list")
    assert sitting.code not in mine.page


def test_what_was_handed_back_stays_as_it_was_given(cast, here, sheet_here, sitting):
    handed_back(cast, here, sheet_here)
    kept = HandedBack.objects.get().content
    lecturer = Person(cast.lecturer)
    lecturer.client.post(f"/lessons/{cast.lesson.code}/marks/{cast.learner.college_number}/take-back/")
    assert HandedBack.objects.get().content == kept
    assert Sheet.objects.get().submitted_at is not None
