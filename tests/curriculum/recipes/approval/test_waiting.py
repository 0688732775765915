from datetime import date

import pytest

from curriculum.recipes.approval.waiting import LastWord, quoted, waits

DAY = date(2027, 2, 16)


def _last(what, words=""):
    return LastWord(what, "Odile", DAY, words)


@pytest.mark.parametrize(
    "state, checker, sent, last, words",
    [
        ("draft", "", None, None, "It waits for Marek, who is writing it."),
        ("draft", "", DAY, _last("sent"), "Sent 16 Feb 2027. It waits for somebody other than Marek"),
        ("draft", "", DAY, _last("sent", "Less salt"), "“Less salt” It waits"),
        (
            "draft",
            "",
            None,
            _last("sent_back", "step 2 has no cue"),
            "Odile sent it back 16 Feb 2027: “Step 2 has no cue.” It waits for Marek.",
        ),
        ("draft", "", DAY, _last("sent_back", "step 2 has no cue"), "somebody other than Marek to check it."),
        ("checked", "Odile", DAY, _last("checked"), "Odile has checked it. It waits for somebody other than"),
        ("approved", "Odile", DAY, _last("approved"), ""),
    ],
)
def test_it_is_said_who_waits_for_whom(state, checker, sent, last, words):
    said = waits(state, "Marek", checker, sent, last)
    assert words in said and bool(words) == bool(said)


def test_words_are_quoted_as_a_sentence():
    assert quoted("too much salt") == "“Too much salt.”"
