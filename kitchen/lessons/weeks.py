"""Weeks of lessons for the list: which weeks a page shows, and what a week is called."""

from datetime import date, timedelta

from curriculum.wording import MONTHS

#: Weeks on one page of the list. Common practice, no source.
WEEKS_A_PAGE = 4


def monday_of(day: date) -> date:
    """The Monday of the week of a day."""
    return day - timedelta(days=day.weekday())


def page_of_weeks(first: date) -> tuple[date, date]:
    """The first and the last day that a page beginning with the week of ``first`` shows."""
    monday = monday_of(first)
    return monday, monday + timedelta(days=7 * WEEKS_A_PAGE - 1)


def week_words(monday: date, term_starts_on: date | None) -> str:
    """ "Week 7, from Monday 15 February 2027"; without a term only the day."""
    day = f"Monday {monday.day} {MONTHS[monday.month - 1]} {monday.year}"
    if term_starts_on is None or monday < monday_of(term_starts_on):
        return f"From {day}"
    return f"Week {(monday - monday_of(term_starts_on)).days // 7 + 1}, from {day}"


def earlier_page(last_before: date | None) -> date | None:
    """The Monday from which the page before begins, so that it ends with the last lesson before this page."""
    return monday_of(last_before) - timedelta(days=7 * (WEEKS_A_PAGE - 1)) if last_before else None
