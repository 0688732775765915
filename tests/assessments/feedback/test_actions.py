"""Feedback is drafted from what was seen, and handed back once, frozen, by the lesson's lecturer."""

import pytest
from django.db import IntegrityError, transaction

from assessments.feedback import actions
from assessments.feedback.content import DraftData, Words, read_handed_back
from assessments.feedback.models import HandedBack
from assessments.feedback.queries import drafted_for, row_of
from assessments.marking.actions import take_back_sheet
from curriculum.errors import RuleBroken
from tests.builders.cast import build_cast
from tests.builders.feedback import handed_back, weakly_marked
from tests.builders.marking import WEAK, first_sheet, marked, opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def refused(code, do):
    with pytest.raises(RuleBroken) as error:
        do()
    assert error.value.code == code
    return error.value.message


def test_what_was_seen_becomes_seen_why_do_and_what_it_moves(cast):
    content = read_handed_back(handed_back(cast).content)
    advice = next(each for each in content.practise if each.technique == "rubbing_in")
    assert advice.seen == "The crumb is greasy and clumps."
    assert advice.why.startswith("The fat was soft")
    assert advice.do.startswith("Chill the bowl")
    assert advice.cue == "Fine crumbs that hold when pressed."
    assert advice.moves == "This moves rubbing in from 1 to 2: 10 points."
    assert (content.total, content.band) == ("39", "not passed")
    assert content.lines[-1].figure == "39 of 100"
    assert content.remarks == ("hygiene below the standard",)


def test_handing_back_twice_is_one_handing_back(cast):
    first = handed_back(cast)
    again = actions.hand_back(sitting=first.sitting, by=cast.lecturer)
    assert again == first
    assert HandedBack.objects.count() == 1


def test_from_then_on_marks_and_words_stand(cast):
    given = handed_back(cast)
    given.sitting.refresh_from_db()
    assert given.sitting.state == "agreed"
    refused("sitting_closed", lambda: take_back_sheet(sheet=first_sheet(given.sitting), by=cast.lecturer))
    refused(
        "already_handed_back",
        lambda: actions.write_feedback(sitting=given.sitting, draft=DraftData(), by=cast.lecturer),
    )
    with pytest.raises(IntegrityError), transaction.atomic():
        HandedBack.objects.update(number=2)


def test_nothing_is_handed_back_before_the_sheets_are_in(cast):
    refused("not_submitted", lambda: actions.hand_back(sitting=opened(cast), by=cast.lecturer))


def test_a_cover_teaches_and_does_not_hand_back(cast):
    sitting = weakly_marked(cast)
    refused("not_yours_to_hand_back", lambda: actions.hand_back(sitting=sitting, by=cast.cover))
    assert HandedBack.objects.count() == 0


def test_a_low_technique_without_a_cause_is_not_handed_back(cast):
    sitting = marked(cast, WEAK)
    message = refused("advice_unfinished", lambda: actions.hand_back(sitting=sitting, by=cast.lecturer))
    assert "Rubbing in, 1 of 3: choose a fault or write why it happened." in message
    sitting.refresh_from_db()
    assert sitting.state == "submitted"


def words_for(cast, sitting, **texts):
    advice = next(each for each in drafted_for(row_of(sitting)).advice if each.technique)
    said = {"seen": advice.seen, "why": "The butter was warm.", "do": advice.do, **texts}
    return DraftData((Words(advice.place, advice.milli, **said),), "Cold hands.", "At 10:12 it was 24 °C.")


def test_a_lecturers_own_words_are_handed_back(cast):
    sitting = marked(cast, WEAK)
    actions.write_feedback(sitting=sitting, draft=words_for(cast, sitting), by=cast.cover)
    content = read_handed_back(actions.hand_back(sitting=sitting, by=cast.lecturer).content)
    advice = next(each for each in content.practise if each.technique)
    assert advice.why == "The butter was warm."
    assert (content.next_time, content.note) == ("Cold hands.", "At 10:12 it was 24 °C.")


def test_words_about_the_person_are_refused(cast):
    sitting = marked(cast, WEAK)
    draft = words_for(cast, sitting, why="Careless as ever.")
    message = refused(
        "about_the_person",
        lambda: actions.write_feedback(sitting=sitting, draft=draft, by=cast.lecturer),
    )
    assert "“Careless” is about the person" in message


def test_words_written_for_another_mark_are_drafted_anew(cast):
    sitting = weakly_marked(cast)
    draft = DraftData((Words("technique.rubbing_in", 2000, "x", "y", "z"),))
    actions.write_feedback(sitting=sitting, draft=draft, by=cast.lecturer)
    advice = next(each for each in drafted_for(row_of(sitting)).advice if each.technique)
    assert advice.seen == "The crumb is greasy and clumps."


def test_all_that_is_ready_goes_out_and_the_rest_is_named(cast):
    weakly_marked(cast)
    done, refusals = actions.hand_back_all(lesson=cast.lesson, by=cast.lecturer)
    assert len(done) == 1
    assert refusals == ["Learner N101: The mark sheets of this sitting are not all in yet."]
