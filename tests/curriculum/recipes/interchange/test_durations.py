from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange.durations import read_seconds, write_minutes

#: ISO 8601 as isodate 0.7.2 reads it, run outside the project.
READ = {
    "PT1H30M": 5400,
    "PT90M": 5400,
    "PT1.5H": 5400,
    "P1DT2H": 93_600,
    "PT0S": 0,
    "P1W": 604_800,
    "PT1M": 60,
}


@pytest.mark.parametrize("text", READ)
def test_a_duration_is_read_as_another_reader_reads_it(text):
    assert read_seconds(text) == READ[text]


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
