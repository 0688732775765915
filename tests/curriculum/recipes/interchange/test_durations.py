from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange.durations import read_seconds, write_minutes


@pytest.mark.parametrize(
    "text", ["PT", "P", "1H", "", "P1DT", "PT1M\n", "PT1M1H", "-PT1M", "PT" + "9" * 99 + "M"]
)
def test_what_is_no_duration_is_refused(text):
    with pytest.raises(RuleBroken) as refused:
        read_seconds(text)
    assert refused.value.code == "no_duration"


def test_a_month_is_not_taken_for_a_minute():
    with pytest.raises(RuleBroken) as refused:
        read_seconds("P1M")
    assert refused.value.code == "month_for_a_step"


@pytest.mark.parametrize(("text", "minutes"), [("P0Y0M0DT0H20M", 20), ("P0M", 0), ("P00YT1H", 60)])
def test_no_years_and_no_months_are_nothing(text, minutes):
    assert read_seconds(text) == minutes * 60


@pytest.mark.parametrize("text", ["P0Y1M", "P1Y0M", "P0Y0M0DT", "P0Y0M1.5DT2H", "PT1.5H30M", "PT1,5M30S"])
def test_a_month_among_nothings_and_decimals_before_the_last_figure_are_refused(text):
    """ISO 8601: only the smallest figure may have decimals (from memory)."""
    with pytest.raises(RuleBroken):
        read_seconds(text)


def test_the_last_figure_may_have_decimals():
    assert read_seconds("P1DT1.5H") == 91_800 and read_seconds("PT1H0,5M") == 3_630


def test_minutes_that_are_written_are_read_again():
    assert all(read_seconds(write_minutes(minutes)) == Fraction(minutes * 60) for minutes in range(3000))
    assert write_minutes(90) == "PT1H30M" and write_minutes(0) == "PT0M"
