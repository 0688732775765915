"""Days left in words, and which lessons could use a lot before it ends."""

from datetime import date, timedelta

import pytest

from kitchen.stores.moves.expiring.soon import Ending, Planned, could_use, last_day, left_words

TODAY, LAST = date(2027, 2, 16), date(2027, 2, 19)
PLANNED = [
    Planned(3, date(2027, 2, 20), frozenset({7})),
    Planned(2, date(2027, 2, 17), frozenset({7, 8})),
    Planned(1, date(2027, 2, 15), frozenset({7})),
    Planned(4, date(2027, 2, 19), frozenset({7})),
]


@pytest.mark.parametrize(
    ("day", "words"),
    [(19, "3 days left"), (17, "1 day left"), (16, "today is the last day"), (14, "2 days past")],
)
def test_what_is_left_is_said_in_days(day, words):
    assert left_words(date(2027, 2, day), TODAY) == words


def test_a_lesson_uses_it_from_today_to_its_last_day_the_earliest_first():
    assert could_use(Ending(1, 7, LAST, LAST), PLANNED, TODAY) == [2, 4]
    assert could_use(Ending(1, 9, LAST, LAST), PLANNED, TODAY) == []


def test_past_a_best_before_date_every_lesson_could():
    assert could_use(Ending(1, 7, TODAY), PLANNED, TODAY) == [2, 4, 3]


def test_a_harder_end_behind_a_best_before_date_counts():
    """Flour is past its best-before date, and by the stores' own days it keeps until LAST."""
    ending = Ending(1, 7, TODAY, LAST)
    assert could_use(ending, PLANNED, TODAY) == [2, 4]
    assert not ending.gone(LAST) and ending.gone(LAST + timedelta(days=1))


def test_the_earliest_day_that_is_known_ends_it():
    assert last_day(None, LAST, TODAY) == TODAY and last_day(None) is None
