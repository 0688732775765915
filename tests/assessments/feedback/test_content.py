"""Kept feedback comes back as it was written, and another shape is not read."""

import json

import pytest

from assessments.feedback.advice import Advice
from assessments.feedback.content import (
    DraftData,
    HandedBackData,
    LineGiven,
    UnreadableFeedback,
    Words,
    merged,
    read_draft,
    read_handed_back,
    write_draft,
    write_handed_back,
)

ADVICE = Advice("texture", "Texture", "", "5 of 10", "practise", 5000, 10, "Soft.", "", "Dry it.")
GIVEN = HandedBackData(
    title="Quiche",
    dish="Leek and Cheddar quiche",
    cooked_on="2027-02-16",
    learner="Æsa Ødegård",
    scheme="One hundred points",
    total="61",
    most="100",
    band="merit",
    next_time="Next time, texture: dry it.",
    note="<b>At 10:12</b> it was 24 °C.",
    practise=(ADVICE,),
    well=(),
    lines=(LineGiven("Texture, 5 of 10", "5 of 10", "criterion"),),
    remarks=(),
    marker="Marek",
    beside=("Tobias",),
)


def through_json(value):
    return json.loads(json.dumps(value))


def test_what_was_handed_back_comes_back_the_same():
    assert read_handed_back(through_json(write_handed_back(GIVEN))) == GIVEN


def test_a_draft_comes_back_the_same_and_nothing_kept_is_an_empty_one():
    draft = DraftData((Words("texture", 5000, "a", "b", "c"),), "Cold hands.", "")
    assert read_draft(through_json(write_draft(draft))) == draft
    assert read_draft(None) == DraftData()


@pytest.mark.parametrize("change", [{"shape": 2}, {"more": 1}, {"practise": [{"place": "x"}]}])
def test_another_shape_is_not_read(change):
    with pytest.raises(UnreadableFeedback):
        read_handed_back({**through_json(write_handed_back(GIVEN)), **change})


def test_words_stay_with_the_mark_they_were_written_for():
    words = DraftData((Words("texture", 5000, "Wet.", "Why.", "Do."),))
    assert merged([ADVICE], words)[0].seen == "Wet."
    assert merged([ADVICE], DraftData((Words("texture", 6000, "Wet.", "", ""),)))[0].seen == "Soft."
