"""Weeks of lessons on the list."""

from datetime import date

import pytest

from kitchen.lessons.weeks import earlier_page, monday_of, page_of_weeks, week_words

TERM = date(2027, 1, 4)


def test_a_page_is_four_weeks_from_monday_to_sunday():
    assert page_of_weeks(date(2027, 2, 17)) == (date(2027, 2, 15), date(2027, 3, 14))


@pytest.mark.parametrize("day", [date(2027, 2, 15), date(2027, 2, 21)])
def test_every_day_of_a_week_has_its_monday(day):
    assert monday_of(day) == date(2027, 2, 15)


def test_weeks_are_counted_from_the_first_of_term():
    assert week_words(date(2027, 1, 4), TERM) == "Week 1, from Monday 4 January 2027"
    assert week_words(date(2027, 2, 15), TERM) == "Week 7, from Monday 15 February 2027"


def test_before_term_and_without_one_a_week_has_only_its_day():
    assert week_words(date(2026, 12, 28), TERM) == "From Monday 28 December 2026"
    assert week_words(date(2027, 1, 4), None) == "From Monday 4 January 2027"


def test_the_page_before_ends_with_the_last_lesson_before():
    last = date(2027, 1, 20)
    first, ends = page_of_weeks(earlier_page(last))
    assert first <= last <= ends
    assert ends == date(2027, 1, 24)
    assert earlier_page(None) is None
