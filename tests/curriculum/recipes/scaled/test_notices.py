"""What a page says of a moved ratio: shares under 5 % with two places, larger ones with one."""

from fractions import Fraction as F

import pytest

from curriculum.recipes.ratios import MovedRatio
from curriculum.recipes.scaled.notices import ratio_notice
from tests.builders.recipes import college_recipe


def said(exact, issued):
    """The notice of the salt of a paste whose share moved from ``exact`` to ``issued``."""
    found = MovedRatio("A", "fine_salt", "salt to flour", exact, issued, F(3_750), 5_000, None, None, None)
    return " ".join(ratio_notice(college_recipe("R01"), found, 1).words)


@pytest.mark.parametrize(
    ("exact", "issued", "words"),
    [
        (F(3, 100), F(334, 10_000), "3 % becomes 3.34 % (11.3 % over)"),
        (F(499, 10_000), F(1, 20), "4.99 % becomes 5 %"),
        (F(1234, 10_000), F(1111, 10_000), "12.3 % becomes 11.1 % (10 % under)"),
    ],
)
def test_a_small_share_is_said_with_two_places_and_a_large_one_with_one(exact, issued, words):
    assert words in said(exact, issued)
    assert "3.75 g exact, 5 g on the scale" in said(exact, issued)
