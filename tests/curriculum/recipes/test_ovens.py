from fractions import Fraction

import pytest

from curriculum.recipes import ovens


def test_degrees_there_and_back_are_the_start():
    assert all(ovens.celsius(ovens.fahrenheit(degrees)) == degrees for degrees in range(-20, 300))


def test_a_mark_that_is_none_is_refused():
    with pytest.raises(ValueError):
        ovens.fahrenheit_of_mark(Fraction(1, 3))


def test_a_fan_oven_is_set_lower_and_a_college_may_say_by_how_much():
    assert ovens.fan(1800) == 1600
    assert ovens.fan(1800, lower=250) == 1550


def test_the_other_kind_of_heat_is_said():
    assert "higher" in ovens.heat_words("fan") and "lower" in ovens.heat_words("conventional")
