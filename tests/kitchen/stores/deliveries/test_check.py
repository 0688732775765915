"""What a delivery is judged by at the door, with the figures of the published limits."""

from datetime import date, timedelta

import pytest

from curriculum.limits import BY_CODE
from kitchen.stores.deliveries.check import (
    LessonUse,
    Rule,
    Tally,
    advice,
    does_not_reach,
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


def test_the_lessons_after_its_date_are_named_with_the_missing_days():
    # Cream, use by Wednesday 24 February, bought for lessons on the 23rd and the 26th.
    uses = [LessonUse("Trifle, P1", date(2027, 2, 23)), LessonUse("Tart, P2", date(2027, 2, 26))]
    words = does_not_reach("use_by", date(2027, 2, 24), uses, TODAY)
    assert "does not reach Tart, P2 on" in words and "(2 days)" in words and "Trifle" not in words
    assert does_not_reach("use_by", date(2027, 2, 26), uses, TODAY) == ""
    assert does_not_reach("none", None, uses, TODAY) == ""


def test_of_many_lessons_four_are_named_and_the_rest_counted():
    uses = [LessonUse(f"Lesson {number}", date(2027, 2, 26)) for number in range(7)]
    words = does_not_reach("best_before", date(2027, 2, 24), uses, TODAY)
    assert words.startswith("Best before") and "Lesson 3" in words and "Lesson 4" not in words
    assert "3 more lessons" in words


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
