"""Papers, parts and reasons in words."""

from datetime import datetime

import pytest

from kitchen.lessons.papers.force import Void
from kitchen.lessons.papers.models import Print
from kitchen.lessons.papers.words import OF, of_words, part_words, why_words

AT = datetime(2027, 2, 12, 8, 31)


def test_every_paper_has_its_words():
    assert set(OF) == set(Print.Paper.values)


@pytest.mark.parametrize(
    ("paper", "number", "at", "words"),
    [
        ("labels", 2, AT, "set 2 of 12 Feb 08:31"),
        ("strips", 3, None, "plan 3"),
        ("recipes", 0, None, ""),
    ],
)
def test_of_which_set_or_plan_a_paper_is(paper, number, at, words):
    assert of_words(paper, number, at) == words


@pytest.mark.parametrize(
    ("paper", "parts", "words"),
    [
        ("strips", ["3", "5"], "benches 3 and 5"),
        ("recipes", ["3"], "bench 3"),
        ("labels", ["3", "S"], "kits 3 and S"),
        ("labels", ["1", "2", "3", "5", "S"], "kits 1 to 3, 5 and S"),
        ("issue_sheet", [""], ""),
    ],
)
def test_parts_by_their_plates(paper, parts, words):
    assert part_words(paper, parts) == words


def test_why_a_print_is_void():
    assert why_words([Void("3", ("weights",))]) == "Changed since: weights."
    assert why_words([Void("3", ("weights", "names")), Void("4", ())]).endswith("; some are no more.")
    assert why_words([Void("4", ())]) == "It is no more."
    assert why_words([]) == ""
