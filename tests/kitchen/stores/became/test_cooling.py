"""Cooling against the published limit, at its edges, and the words of what became of a dish."""

from datetime import UTC, date, datetime, timedelta

import pytest

from curriculum.limits import BY_CODE
from kitchen.stores.became.cooling import Cooling, Portions, kept_with_reading, said_words

NOON = datetime(2027, 2, 16, 11, 20, tzinfo=UTC)


def cooled(minutes, decicelsius):
    return Cooling(NOON, NOON + timedelta(minutes=minutes), decicelsius)


@pytest.mark.parametrize(
    ("minutes", "decicelsius", "kept"),
    [(75, 70, True), (90, 80, True), (91, 80, False), (90, 81, False), (1, -20, True)],
)
def test_time_and_reading_both_keep_the_limit_or_it_is_not_kept(minutes, decicelsius, kept):
    """The figures are the limit "cooling": 90 minutes, 8 °C, common practice, no source."""
    assert (BY_CODE["cooling"].seconds, BY_CODE["cooling"].decicelsius) == (5400, 80)
    assert cooled(minutes, decicelsius).kept is kept


def test_what_is_read_before_it_began_is_nonsense():
    with pytest.raises(ValueError):
        cooled(0, 70)
    with pytest.raises(ValueError):
        Portions(eaten=-1)


def test_the_words_name_portions_times_and_reading_and_never_say_that_a_dish_is_safe():
    words = said_words(Portions(eaten=4, home=4), cooled(75, 70), date(2027, 2, 18), "")
    assert words == (
        "4 eaten in the college, 4 taken home, cooled 11:20 to 12:35 (75 min), 7\xa0°C, "
        "to be eaten by 18 Feb 2027."
    )
    late = said_words(Portions(home=4), cooled(91, 70), None, "M. Bell, sheet 4")
    assert "the limit was not kept, decided: M. Bell, sheet 4" in late
    assert "no cooling written" in said_words(Portions(home=1), None, None, "")
    assert said_words(Portions(sold=2, wasted=1), None, None, "") == "2 sold, 1 thrown away."


def test_the_reading_keeps_the_limit_with_its_source():
    kept = kept_with_reading()
    assert (kept["decicelsius"], kept["seconds"], kept["source"]) == (80, 5400, BY_CODE["cooling"].source)
