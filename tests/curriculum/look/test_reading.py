"""Days, times and whole numbers as people write them."""

from datetime import date, time
from fractions import Fraction

import pytest

from curriculum.look.reading import (
    clock_from,
    day_from,
    minutes_from,
    pence_from,
    quoted,
    tenths_from,
    whole_number_from,
)


@pytest.mark.parametrize(
    "words",
    [
        "16 Feb 2027",
        "16 February 2027",
        "Tuesday 16 February 2027",
        "16/2/2027",
        "16.02.2027",
        "2027-02-16",
        " 16  feb  2027 ",
    ],
)
def test_a_day_is_read_however_it_is_written(words):
    assert day_from(words) == date(2027, 2, 16)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("31 February 2027", "February 2027 has 28 days."),
        ("31/2/2028", "February 2028 has 29 days."),
        ("16/13/2027", "twelve months"),
        ("16 Feb 27", "such as 16 Feb 2027"),
        ("16 Febtober 2027", "such as 16 Feb 2027"),
        ("next Tuesday", "“next Tuesday”"),
        ("16 Feb 1927", "2000 to 2100"),
        ("0 May 2027", "May 2027 has 31 days."),
    ],
)
def test_a_day_that_cannot_be_is_quoted_with_what_to_write(words, says):
    with pytest.raises(ValueError, match="You wrote") as refused:
        day_from(words)
    assert says in str(refused.value)


@pytest.mark.parametrize(
    ("words", "read"), [("13:05", time(13, 5)), ("9.30", time(9, 30)), ("0900", time(9)), ("9", time(9))]
)
def test_a_time_is_read_on_the_24_hour_clock(words, read):
    assert clock_from(words) == read


@pytest.mark.parametrize("words", ["25:00", "12:60", "noon", "", "9:5"])
def test_a_time_that_cannot_be_is_refused(words):
    with pytest.raises(ValueError, match="00:00 to 23:59"):
        clock_from(words)


def test_a_whole_number_is_read_with_its_commas():
    assert whole_number_from(" 1,200 ", least=1, most=5000, such_as=12) == 1200


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("a dozen", "You wrote “a dozen”. Write a whole number, such as 12."),
        ("2.5", "such as 12"),
        ("2,5", "such as 12"),
        ("1,20", "such as 12"),
        ("0", "from 1 to 40"),
        ("-3", "from 1 to 40"),
        ("9" * 500, "such as 12"),
    ],
)
def test_what_is_no_number_within_bounds_says_what_is(words, says):
    with pytest.raises(ValueError, match="You wrote") as refused:
        whole_number_from(words, least=1, most=40, such_as=12)
    assert says in str(refused.value)


def test_a_long_quotation_is_cut():
    assert len(quoted("word " * 100)) < 50


@pytest.mark.parametrize(
    ("words", "minutes"),
    [("90", 90), ("90 min", 90), ("0", 0), ("1 h", 60), ("2 h 30", 150), ("2h30min", 150), ("2:30", 150)],
)
def test_minutes_are_read_as_people_write_them(words, minutes):
    assert minutes_from(words) == minutes


@pytest.mark.parametrize(
    ("words", "pence"), [("90", 90), ("90p", 90), ("£2", 200), ("2.50", 250), ("£ 2.50", 250)]
)
def test_pence_are_read_as_people_write_them(words, pence):
    assert pence_from(words) == pence


@pytest.mark.parametrize("words", ["two", "-5", "2 h 70", "1.5.2", "", "9" * 400])
def test_what_is_no_time_and_no_price_is_quoted_with_what_to_write(words):
    with pytest.raises(ValueError, match="Write minutes or hours, such as 90 or 1 h 30"):
        minutes_from(words)
    with pytest.raises(ValueError, match="Write pence or pounds, such as 90 or £2.50"):
        pence_from(words)


@pytest.mark.parametrize(
    ("words", "number"),
    [
        ("2.7", "2.7"),
        ("2,7", "2.7"),
        ("250", "250"),
        ("1,200", "1200"),
        ("1,200.5", "1200.5"),
        ("0.1", "0.1"),
    ],
)
def test_a_tenth_is_read_behind_a_point_or_a_comma_and_thousands_stay_thousands(words, number):
    assert tenths_from(words, least=Fraction(1, 10), most=1_000_000, such_as="2.7") == Fraction(number)


@pytest.mark.parametrize(
    "words", ["2.75", "1.200", "2,75", "1,2000", "two", "--1", ".", "", "9" * 400, "1e3"]
)
def test_what_has_two_decimals_or_could_mean_thousands_is_no_tenth(words):
    with pytest.raises(ValueError, match="one decimal at most, such as 2.7"):
        tenths_from(words, least=Fraction(1, 10), most=1_000_000, such_as="2.7")


@pytest.mark.parametrize(
    ("words", "least"),
    [
        ("0", Fraction(1, 10)),
        ("0.0", Fraction(1, 10)),
        ("51", Fraction(0)),
        ("-5", Fraction(0)),
        ("−2.5", Fraction(0)),
    ],
)
def test_a_tenth_out_of_bounds_says_the_bounds(words, least):
    with pytest.raises(ValueError, match="Write a number from 0"):
        tenths_from(words, least=least, most=50, such_as="2.7")
