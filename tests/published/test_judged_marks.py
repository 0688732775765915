"""Judges' scores against the published rules of an international skills competition.

Source: WorldSkills Competition Rules OD03 (v7 to v9.3), as summarised in Russian and from
memory (the mean of three scores of 0 to 3, over 3, times the marks of the aspect; a spread
of more than 1 is talked over and scored again). The sums were worked by hand from the rule.
"""

from fractions import Fraction

import pytest

from assessments.schemes.figures import plain
from assessments.schemes.ladders import judged_points, spread
from assessments.schemes.points import reckon
from tests.builders.schemes import card, college_scheme


def scores(*values):
    return tuple(Fraction(value) for value in values)


def test_2_2_3_on_an_aspect_of_one_and_a_half_marks_is_1_17():
    earned = judged_points(scores(2, 2, 3), 3, 1500)
    assert earned == Fraction(3500, 3)
    assert plain(earned / 1000) == "1.17"
    assert plain(earned / 1000, 4) == "1.1667"


@pytest.mark.parametrize(
    "given, again", [((1, 2, 3), True), ((0, 0, 1), False), ((2, 2, 3), False), ((0, 1, 3), True)]
)
def test_a_spread_of_more_than_one_step_is_marked_again(given, again):
    assert (spread(scores(*given)) > 1) is again
    outcome = reckon(college_scheme("judges_and_measures"), card(judged={"process": list(given)}))
    assert bool(outcome.again) is again
