"""Gas marks and degrees against the table that cooks use."""

from fractions import Fraction

import pytest

from curriculum.recipes import ovens

CHARTS = "four consumer charts; F from the units list of GNU (F = 250 + 25 x mark)"
#: mark, F, exact C as printed, usual C of the charts (any of them), fan C from least to most.
TABLE = [
    ("1/4", 225, "107.2", (110,), (90, 90)),
    ("1/2", 250, "121.1", (120, 130), (100, 100)),
    ("1", 275, "135.0", (140,), (120, 120)),
    ("2", 300, "148.9", (150,), (130, 130)),
    ("3", 325, "162.8", (160, 165, 170), (140, 150)),
    ("4", 350, "176.7", (180,), (160, 160)),
    ("5", 375, "190.6", (190,), (170, 170)),
    ("6", 400, "204.4", (200,), (180, 180)),
    ("7", 425, "218.3", (220,), (200, 200)),
    ("8", 450, "232.2", (230,), (210, 210)),
    ("9", 475, "246.1", (240,), (220, 220)),
    ("10", 500, "260.0", (260,), (240, 240)),
]


@pytest.mark.parametrize(("mark", "f", "exact", "usual", "fan"), TABLE)
def test_a_gas_mark_is_what_the_charts_say(mark, f, exact, usual, fan):
    fahrenheit, celsius, fan_celsius = ovens.GAS_MARKS[Fraction(mark)]
    assert fahrenheit == f == ovens.fahrenheit_of_mark(Fraction(mark)), CHARTS
    assert abs(ovens.celsius(f) - Fraction(exact)) <= Fraction(1, 20)
    assert celsius in usual and fan[0] <= fan_celsius <= fan[1], CHARTS
    assert abs(celsius - ovens.celsius(f)) <= 10


@pytest.mark.parametrize(("lower", "source"), [(20, "most of four consumer charts"), (25, "two others")])
def test_a_fan_oven_is_set_lower_and_a_college_may_choose_its_own(lower, source):
    assert ovens.fan(1800, lower * 10) == 1800 - lower * 10, source


def test_a_fan_oven_is_set_20_lower_unless_it_is_said():
    """Most of four consumer charts; common practice."""
    assert ovens.fan(1800) == 1600
    assert "20 °C higher" in ovens.heat_words("fan") and "20 °C lower" in ovens.heat_words("conventional")


@pytest.mark.parametrize("mark", ["0", "1/8", "2/3"])
def test_a_mark_that_no_cooker_has_is_refused(mark):
    with pytest.raises(ValueError, match="no gas mark"):
        ovens.fahrenheit_of_mark(Fraction(mark))


def test_the_table_is_the_whole_table():
    assert set(ovens.GAS_MARKS) == {Fraction(row[0]) for row in TABLE}


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"), [(180, 356), (0, 32), (100, 212), (75, 167), (63, Fraction("145.4"))]
)
def test_degrees_are_turned_exactly(celsius, fahrenheit):
    assert ovens.fahrenheit(celsius) == fahrenheit


def test_a_difference_of_twenty_celsius_is_thirty_six_fahrenheit():
    assert ovens.fahrenheit(180) - ovens.fahrenheit(160) == 36
