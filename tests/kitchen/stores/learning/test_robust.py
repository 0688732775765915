"""The middle, and what lies far from it."""

import pytest

from kitchen.stores.learning.robust import far_off, middle


def test_of_an_even_number_the_lower_middle_is_one_that_happened():
    assert middle([40, 10, 30, 20]) == 20


def test_one_lesson_gone_wrong_does_not_move_the_middle_beyond_the_others():
    assert middle([24, 26, 30, 31, 160]) == 30
    assert middle([24, 26, 30, 31, 5000]) == 30


def test_there_is_no_middle_of_nothing():
    with pytest.raises(ValueError, match="nothing"):
        middle([])


def test_what_lies_more_than_four_times_the_usual_distance_away_is_far_off():
    assert far_off([24, 26, 30, 31, 160], 1) == (False, False, False, False, True)


def test_what_differs_by_less_than_the_scale_shows_is_never_far_off():
    assert far_off([30, 30, 30, 30, 31], 1) == (False,) * 5
    assert far_off([30, 30, 30, 30, 32], 1) == (False, False, False, False, True)


def test_of_three_lessons_nobody_can_say_which_is_far_off():
    assert far_off([1, 1, 900], 1) == (False, False, False)
