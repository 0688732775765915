"""The last day of what is delivered, and the lessons that come after it."""

from datetime import date

import pytest

from kitchen.stores.deliveries.reach.dates import Last, LessonUse, does_not_reach, last_of

TODAY = date(2027, 2, 22)
TRIFLE, TART = LessonUse("Trifle, P1", date(2027, 2, 23)), LessonUse("Tart, P2", date(2027, 2, 26))


def test_the_lessons_after_its_date_are_named_with_the_missing_days():
    # Cream, use by Wednesday 24 February, bought for lessons on the 23rd and the 26th.
    words = does_not_reach(Last("use_by", date(2027, 2, 24)), [TRIFLE, TART], TODAY)
    assert "does not reach Tart, P2 on" in words and "(2 days)" in words and "Trifle" not in words
    assert does_not_reach(Last("use_by", date(2027, 2, 26)), [TRIFLE, TART], TODAY) == ""
    assert does_not_reach(None, [TRIFLE, TART], TODAY) == ""


def test_of_many_lessons_four_are_named_and_the_rest_counted():
    uses = [LessonUse(f"Lesson {number}", date(2027, 2, 26)) for number in range(7)]
    words = does_not_reach(Last("best_before", date(2027, 2, 24)), uses, TODAY)
    assert words.startswith("Best before") and "Lesson 3" in words and "Lesson 4" not in words
    assert "3 more lessons" in words


@pytest.mark.parametrize(
    ("kind", "dated_on", "kept_days", "last"),
    [
        ("none", None, None, None),
        ("none", None, 3, Last("kept", date(2027, 2, 25))),
        ("none", None, 0, Last("kept", TODAY)),
        ("use_by", date(2027, 2, 24), 3, Last("use_by", date(2027, 2, 24))),
        ("best_before", date(2027, 3, 24), 3, Last("kept", date(2027, 2, 25))),
        ("use_by", date(2027, 2, 25), 3, Last("use_by", date(2027, 2, 25))),
    ],
)
def test_the_earlier_of_its_date_and_of_the_days_it_is_kept_counts(kind, dated_on, kept_days, last):
    assert last_of(kind, dated_on, TODAY, kept_days) == last


def test_only_a_use_by_date_is_law():
    assert [Last(kind, TODAY).is_law for kind in ("use_by", "best_before", "kept")] == [True, False, False]


def test_food_kept_by_the_stores_own_days_is_said_so():
    words = does_not_reach(Last("kept", date(2027, 2, 25)), [TART], TODAY)
    assert words.startswith("Kept until") and "(1 day)" in words
