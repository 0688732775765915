"""Feedback on paper says what its page says."""

import io

from pypdf import PdfReader

from assessments.feedback.paper import feedback_paper
from assessments.feedback.shown import handed_back_shown
from tests.assessments.feedback.test_content import GIVEN


def words_on(pdf):
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).replace("\n", " ")


def test_the_paper_carries_the_mark_the_advice_and_the_arithmetic():
    words = words_on(feedback_paper(handed_back_shown(GIVEN), college="Tillow College"))
    for expected in ("61 of 100, merit", "Next time, texture: dry it.", "Do: Dry it.", "Texture, 5 of 10"):
        assert expected in words
    assert "<b>At 10:12</b>" in words
    assert "Marked by Marek, and by Tobias" in words


def test_large_print_takes_more_room_and_drops_nothing():
    shown = handed_back_shown(GIVEN)
    plain, large = (feedback_paper(shown, college="Tillow", large=large) for large in (False, True))
    assert sorted(words_on(plain).split()) != [] and plain != large
    for word in ("Dry", "24", "Marek"):
        assert word in words_on(large)
