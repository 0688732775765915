"""Marks are kept at once, once, by whom and when; nothing is ever changed."""

from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction

from assessments.marking import actions
from assessments.marking.models import MarkEntry, Sheet, Sitting
from assessments.marking.queries import sitting_data
from assessments.schemes.actions import write_briefs
from curriculum.errors import RuleBroken
from curriculum.people.actions import agree_adjustment
from kitchen.lessons.models import Attendance
from tests.builders.cast import TERM, build_cast
from tests.builders.marking import (
    GOOD,
    WEAK,
    a_fault,
    briefed,
    filled,
    first_sheet,
    kept_scheme,
    marked,
    opened,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def sheet(cast):
    return first_sheet(opened(cast))


def give(sheet, place="texture", milli=7000, **more):
    return actions.give_mark(
        **{"sheet": sheet, "place": place, "milli": milli, "by": sheet.marker, "key": uuid4(), **more}
    )


def refused(code, do):
    with pytest.raises(RuleBroken) as error:
        do()
    assert error.value.code == code
    return error.value.message


def test_an_unchecked_brief_refuses_marking_in_words(cast):
    write_briefs(lesson=cast.lesson, scheme_version=kept_scheme(cast), by=cast.lecturer)
    message = refused(
        "brief_not_checked", lambda: actions.open_sittings(lesson=cast.lesson, by=cast.lecturer)
    )
    assert "has not been checked by another person" in message
    assert Sitting.objects.count() == 0


def test_a_lesson_without_a_brief_refuses_marking(cast):
    refused("no_brief", lambda: actions.open_sittings(lesson=cast.lesson, by=cast.lecturer))


def test_sheets_are_opened_once_for_each_learner_who_is_there(cast):
    Attendance.objects.create(
        lesson=cast.lesson, student=cast.partner, number=1, state="absent", key=uuid4(), by=cast.lecturer
    )
    opened(cast)
    assert [each.student for each in Sitting.objects.all()] == [cast.learner]
    Attendance.objects.create(
        lesson=cast.lesson, student=cast.partner, number=2, state="late", key=uuid4(), by=cast.lecturer
    )
    actions.open_sittings(lesson=cast.lesson, by=cast.lecturer)
    actions.open_sittings(lesson=cast.lesson, by=cast.lecturer)
    assert Sitting.objects.count() == 2
    assert Sheet.objects.filter(part="first", marker=cast.lecturer).count() == 2


def test_extra_time_is_copied_into_the_sitting_and_moves_its_deadline(cast):
    agree_adjustment(student=cast.learner, kind="extra_time", percent=25, from_on=TERM, by=cast.manager)
    sitting = opened(cast)
    data = sitting_data(sitting)
    assert (sitting.minutes, sitting.extra_per_mille) == (135, 250)
    assert f"{data.start:%H:%M:%S} {data.due:%H:%M:%S}" == "09:15:00 12:03:45"


def test_every_mark_is_a_row_with_who_and_when(sheet):
    entry = give(sheet)
    assert (entry.number, entry.milli, entry.by, entry.supersedes) == (1, 7000, sheet.marker, None)
    assert entry.at is not None
    again = give(sheet, milli=8000)
    assert (again.number, again.supersedes, again.based_on) == (2, entry, 1)
    assert MarkEntry.objects.get(pk=entry.pk).milli == 7000


def test_the_same_key_is_one_mark_and_another_value_under_it_is_refused(sheet):
    key = uuid4()
    first = give(sheet, key=key)
    assert give(sheet, key=key) == first
    refused("key_used_for_something_else", lambda: give(sheet, key=key, milli=9000))
    assert MarkEntry.objects.count() == 1


def test_two_devices_based_on_the_same_number_are_both_kept_and_shown_as_a_conflict(sheet):
    filled(sheet)
    give(sheet, milli=5000, based_on=1)
    give(sheet, milli=9000, based_on=1)
    assert MarkEntry.objects.filter(criterion__code="texture").count() == 3
    message = refused("marks_in_conflict", lambda: actions.submit_sheet(sheet=sheet, by=sheet.marker))
    assert "Product: texture" in message
    give(sheet, milli=9000, based_on=3)
    assert actions.submit_sheet(sheet=sheet, by=sheet.marker).submitted_at


def test_undo_is_a_new_entry_with_the_value_before_it(sheet):
    give(sheet, milli=5000)
    give(sheet, milli=9000)
    back = actions.undo_mark(sheet=sheet, place="texture", by=sheet.marker, key=uuid4())
    assert (back.number, back.milli) == (3, 5000)
    assert MarkEntry.objects.count() == 3


def test_undo_of_the_only_entry_withdraws_it(sheet):
    give(sheet)
    key = uuid4()
    gone = actions.undo_mark(sheet=sheet, place="texture", by=sheet.marker, key=key)
    assert (gone.number, gone.milli) == (2, None)
    assert actions.undo_mark(sheet=sheet, place="texture", by=sheet.marker, key=key) == gone
    assert "texture" not in {mark.criterion for mark in sitting_data(sheet.sitting).card("first").marks}
    refused(
        "nothing_to_undo",
        lambda: actions.undo_mark(sheet=sheet, place="flavour", by=sheet.marker, key=uuid4()),
    )


def test_the_database_refuses_to_change_or_delete_a_mark(sheet):
    entry = give(sheet)
    for change in (
        lambda rows: rows.update(milli=0),
        lambda rows: rows.delete(),
    ):
        with pytest.raises(IntegrityError), transaction.atomic():
            change(MarkEntry.objects.filter(pk=entry.pk))
    assert MarkEntry.objects.get(pk=entry.pk).milli == 7000


@pytest.mark.parametrize(
    "code, given",
    [
        ("no_such_slot", {"place": "garnish"}),
        ("not_a_mark", {"place": "texture", "milli": 11_000}),
        ("not_a_mark", {"place": "texture", "milli": 6500}),
        ("not_a_mark", {"place": "portion_weight", "milli": -1}),
        ("not_a_mark", {"place": "timing", "milli": -60_000}),
        ("not_its_fault", {"faults": ["soufflé_1"]}),
    ],
)
def test_what_cannot_be_marked_is_refused_and_nothing_is_kept(sheet, code, given):
    refused(code, lambda: give(sheet, **given))
    assert MarkEntry.objects.count() == 0


def test_faults_are_kept_with_the_mark_and_may_come_before_it(sheet):
    fault = a_fault()
    seen = give(sheet, place="technique.rubbing_in", milli=None, faults=[fault.code])
    assert seen.faults == ["rubbing_in_1"]
    assert "Rubbing in" in sitting_data(sheet.sitting).missing("first")


def test_an_unfinished_sheet_is_not_submitted_and_says_what_is_missing(sheet):
    give(sheet)
    message = refused("sheet_unfinished", lambda: actions.submit_sheet(sheet=sheet, by=sheet.marker))
    assert "Organisation and mise en place" in message and "Product: texture" not in message


def test_a_submitted_sheet_takes_no_mark_until_it_is_taken_back(cast):
    sitting = marked(cast)
    sheet = first_sheet(sitting)
    assert sitting.state == "submitted"
    assert sitting_data(sitting).record().milli_total == 88_000
    refused("sheet_submitted", lambda: give(sheet))
    actions.take_back_sheet(sheet=sheet, by=sheet.marker)
    assert give(sheet, milli=9000).number == 2


def test_marks_that_stand_are_never_taken_back(cast):
    sitting = marked(cast)
    actions.close_sitting(sitting=sitting, by=cast.lecturer)
    refused("sitting_closed", lambda: actions.take_back_sheet(sheet=first_sheet(sitting), by=cast.lecturer))


def second(cast):
    actions.name_marker(lesson=cast.lesson, marker=cast.second_marker, by=cast.lecturer)
    return Sheet.objects.get(part="second", sitting__student=cast.learner)


def test_a_second_marker_has_a_sheet_of_their_own_and_the_sitting_waits_for_it(cast):
    sitting = opened(cast)
    other = second(cast)
    marked(cast)
    sitting.refresh_from_db()
    assert sitting.state == "open"
    actions.submit_sheet(sheet=filled(other, {**GOOD, "texture": 7}), by=cast.second_marker)
    sitting.refresh_from_db()
    assert sitting.state == "submitted"
    refused("others_are_in", lambda: actions.take_back_sheet(sheet=other, by=cast.second_marker))
    actions.close_sitting(sitting=sitting, by=cast.lecturer)


def test_two_markers_far_apart_agree_with_a_reason_before_marks_stand(cast):
    sitting = opened(cast)
    other = second(cast)
    marked(cast)
    actions.submit_sheet(sheet=filled(other, WEAK), by=cast.second_marker)
    sitting.refresh_from_db()
    message = refused("marks_differ", lambda: actions.close_sitting(sitting=sitting, by=cast.lecturer))
    assert "The totals are 88 and 39" in message
    refused(
        "say_why_agreed",
        lambda: actions.agree_marks(sitting=sitting, take="second", reason=" ", by=cast.lecturer),
    )
    agreed = actions.agree_marks(
        sitting=sitting, take="second", reason="Raw fat was seen by both.", by=cast.lecturer
    )
    assert agreed.entries.count() == len(WEAK)
    assert sitting_data(sitting).record().milli_total == 39_000
    assert sitting_data(sitting).outcome("first").milli_total == 88_000
    actions.close_sitting(sitting=sitting, by=cast.lecturer)


@pytest.mark.parametrize("code, marker", [("marker_is_first", "lecturer"), ("marker_is_first", "cover")])
def test_who_marks_first_is_not_named_again(cast, code, marker):
    opened(cast)
    refused(
        code,
        lambda: actions.name_marker(lesson=cast.lesson, marker=cast.person(marker), by=cast.lecturer),
    )


def test_a_scheme_of_one_assessor_takes_one_further_marker(cast):
    opened(cast)
    second(cast)
    refused("already_marks", lambda: second(cast))
    refused(
        "markers_complete",
        lambda: actions.name_marker(lesson=cast.lesson, marker=cast.other_lecturer, by=cast.lecturer),
    )


def judges(cast):
    opened(cast, "judges_and_measures")
    for name in ("second_marker", "other_lecturer"):
        actions.name_marker(lesson=cast.lesson, marker=cast.person(name), by=cast.lecturer)
    sheets = list(Sheet.objects.filter(sitting__student=cast.learner).order_by("pk"))
    assert [sheet.part for sheet in sheets] == ["first", "second", "third"]
    return sheets


def hand_in(sheet, process):
    marks = {
        "process": process,
        "presentation": 2,
        "taste": 2,
        "weight": 35,
        "count": 8,
        "waste": 150,
        "window": 134,
    }
    filled(sheet, marks)
    return actions.submit_sheet(sheet=sheet, by=sheet.marker)


def test_three_judges_make_one_mark_together(cast):
    sheets = judges(cast)
    for sheet, process in zip(sheets, (2, 2, 3), strict=True):
        hand_in(sheet, process)
    sitting = Sitting.objects.get(student=cast.learner)
    assert sitting.state == "submitted"
    outcome = sitting_data(sitting).record()
    assert outcome.milli_total == 77_000
    assert "Working method: 2, 2, 3, mean 2.33 of 3" in [line.words for line in outcome.lines]


def test_judges_two_steps_apart_get_their_sheets_back(cast):
    sheets = judges(cast)
    for sheet, process in zip(sheets, (1, 2, 3), strict=True):
        hand_in(sheet, process)
    sitting = Sitting.objects.get(student=cast.learner)
    assert sitting.state == "open"
    assert not Sheet.objects.filter(sitting=sitting).exclude(submitted_at=None).exists()
    assert "2 steps apart" in sitting_data(sitting).judges_apart()[0]
    for sheet in sheets:
        give(sheet, place="process", milli=2000)
        actions.submit_sheet(sheet=sheet, by=sheet.marker)
    sitting.refresh_from_db()
    assert sitting.state == "submitted"


def test_a_stop_needs_words_and_ends_the_sheet(cast):
    sheet = first_sheet(opened(cast, "competence"))
    stop = "critical_stop.knives_machines"
    refused("say_why_stopped", lambda: give(sheet, place=stop, milli=1000))
    entry = give(sheet, place=stop, milli=1000, words="Knife carried point forward twice.")
    assert entry.remark.words.startswith("Knife carried")
    actions.submit_sheet(sheet=sheet, by=sheet.marker)
    assert sitting_data(sheet.sitting).record().band == "not yet competent"


def test_no_marker_is_named_once_a_sheet_is_handed_in(cast):
    marked(cast, GOOD)
    refused(
        "first_handed_in",
        lambda: actions.name_marker(lesson=cast.lesson, marker=cast.second_marker, by=cast.lecturer),
    )
    assert not Sheet.objects.filter(part="second").exists()


def test_a_cancelled_lesson_opens_no_sheet(cast):
    briefed(cast)
    type(cast.lesson).objects.filter(pk=cast.lesson.pk).update(state="cancelled")
    refused("lesson_cancelled", lambda: actions.open_sittings(lesson=cast.lesson, by=cast.lecturer))
    assert Sitting.objects.count() == 0


def test_whoever_comes_late_is_marked_by_the_second_marker_too(cast):
    Attendance.objects.create(
        lesson=cast.lesson, student=cast.partner, number=1, state="absent", key=uuid4(), by=cast.lecturer
    )
    opened(cast)
    second(cast)
    Attendance.objects.create(
        lesson=cast.lesson, student=cast.partner, number=2, state="late", key=uuid4(), by=cast.lecturer
    )
    actions.open_sittings(lesson=cast.lesson, by=cast.lecturer)
    late = Sitting.objects.get(student=cast.partner)
    assert sorted(late.sheets.values_list("part", "marker")) == [
        ("first", cast.lecturer.pk),
        ("second", cast.second_marker.pk),
    ]
