"""What a delivery is judged by at the door, with the figures of the published limits."""

from datetime import date, timedelta

import pytest

from curriculum.limits import BY_CODE
from kitchen.stores.deliveries.check import (
    Rule,
    Tally,
    advice,
    past,
    ruling,
    short_dated,
    too_warm,
)

TODAY = date(2027, 2, 16)
NONE = Rule()


@pytest.mark.parametrize(
    ("storage", "decicelsius", "kept"),
    [
        # 8 °C or colder: Food hygiene regulations 2006 (Wales), schedule 4 (limits.py, read)
        ("chilled", 80, True),
        ("chilled", 81, False),
        # −18 °C and 3 °C more on the way: Directive 89/108/EEC, article 5 (limits.py, from memory)
        ("frozen", -150, True),
        ("frozen", -149, False),
        ("ambient", 300, True),
    ],
)
def test_a_reading_is_held_against_the_limit_of_its_storage(storage, decicelsius, kept):
    assert (too_warm(storage, decicelsius, NONE) == "") is kept


def test_a_refusal_names_reading_limit_and_source():
    words = too_warm("chilled", 92, NONE)
    assert "9.2\u00a0°C" in words and "8 °C" in words and BY_CODE["cold_hold"].source in words


def test_the_colleges_own_rule_counts_when_it_is_stricter_and_only_then():
    assert ruling("chilled", Rule(50)).decicelsius == 50
    assert "own rule" in too_warm("chilled", 65, Rule(50))
    assert ruling("chilled", Rule(100)).decicelsius == 80
    assert ruling("ambient", Rule(250)).decicelsius == 250
    assert ruling("ambient", NONE) is None


def test_what_is_kept_with_a_reading_says_figure_and_source():
    kept = ruling("chilled", NONE).kept_with_reading
    assert (kept["decicelsius"], kept["country"]) == (80, "United Kingdom") and kept["source"]


def test_a_reading_above_what_is_aimed_for_is_taken_with_words():
    assert "5 °C" in advice("chilled", 65)
    assert advice("chilled", 50) == advice("frozen", -160) == advice("ambient", 200) == ""


def test_a_use_by_that_has_passed_is_not_taken_in_and_a_best_before_is_looked_at():
    gone = TODAY - timedelta(days=1)
    assert "reject it" in past("use_by", gone, TODAY)
    assert past("use_by", TODAY, TODAY) == past("best_before", gone, TODAY) == past("none", None, TODAY) == ""
    assert "Look at it" in short_dated("best_before", gone, TODAY, NONE)


def test_fewer_days_than_the_college_asks_for_are_said_with_both_figures():
    ends = TODAY + timedelta(days=2)
    assert "leaves 2 days" in short_dated("use_by", ends, TODAY, Rule(None, 3))
    assert "3 days at least" in short_dated("use_by", ends, TODAY, Rule(None, 3))
    assert short_dated("use_by", ends, TODAY, Rule(None, 2)) == ""
    assert short_dated("none", None, TODAY, Rule(None, 3)) == ""


@pytest.mark.parametrize(
    ("tally", "short", "over", "state"),
    [
        (Tally(4), 4, 0, ("todo", "to check")),
        (Tally(4, taken=4), 0, 0, ("done", "all taken in")),
        (Tally(4, taken=3), 1, 0, ("late", "1 to come")),
        (Tally(4, taken=3, rejected=1), 1, 0, ("short", "1 rejected")),
        (Tally(4, rejected=2), 4, 0, ("late", "2 to come")),
        (Tally(4, taken=5), 0, 1, ("late", "1 more than ordered")),
        (Tally(4, taken=2, waiting=2), 0, 0, ("cannot", "waits for a decision")),
    ],
)
def test_a_line_is_counted_against_the_order(tally, short, over, state):
    assert (tally.short, tally.over, tally.state) == (short, over, state)
