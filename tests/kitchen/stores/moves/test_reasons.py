"""What a movement keeps of a reason."""

import pytest

from kitchen.stores.moves import reasons


def test_a_reason_reads_as_its_words_with_the_note_behind():
    assert reasons.words_of(reasons.WASTE, "dropped") == "Dropped"
    assert reasons.words_of(reasons.WASTE, "dropped", " tray slipped ") == "Dropped: tray slipped"


def test_a_reason_that_is_not_listed_is_none():
    with pytest.raises(KeyError):
        reasons.words_of(reasons.WASTE, "bored")


def test_words_are_no_longer_than_the_movement_keeps():
    assert len(reasons.words_of(reasons.MORE, "late", "x" * 500)) == reasons.LONGEST


@pytest.mark.parametrize(
    ("code", "note", "unsaid"), [("other", " ", True), ("other", "mice", False), ("trim", "", False)]
)
def test_something_else_is_said_in_words(code, note, unsaid):
    assert reasons.unsaid(code, note) is unsaid


@pytest.mark.parametrize("listed", [reasons.WASTE, reasons.MORE])
def test_the_code_is_found_again_in_the_words_that_a_movement_keeps(listed):
    for code, _ in listed:
        assert reasons.code_of(listed, reasons.words_of(listed, code, "note: more")) == code
    assert reasons.code_of(listed, "A reason that is listed no more") == reasons.OTHER
