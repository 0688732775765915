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


def test_minutes_that_are_written_are_read_again():
    assert all(read_seconds(write_minutes(minutes)) == Fraction(minutes * 60) for minutes in range(3000))
    assert write_minutes(90) == "PT1H30M" and write_minutes(0) == "PT0M"
