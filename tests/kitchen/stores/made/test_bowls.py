"""What is proposed for a bowl, and why one may not be made so."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from kitchen.stores.allocation import LineNeed, LotData, Use, allocate, barred
from kitchen.stores.made.bowls import (
    LIMIT,
    MadeEntry,
    demand,
    discard_proposed,
    fitting,
    lots_for,
    pieces_for,
    together,
)

DAY = date(2027, 2, 16)
NOW = datetime(2027, 2, 16, 8, 30, tzinfo=UTC)
FIRST = LotData("A", "egg", 4 * 57_000, date(2027, 2, 8), "use_by", date(2027, 2, 22))
SECOND = LotData("B", "egg", 90 * 57_000, date(2027, 2, 12), "use_by", date(2027, 3, 2))
ENTRY = MadeEntry("beaten", (("A", 4), ("B", 5)), 430_000, NOW, NOW + timedelta(hours=4))
BOWL = LotData("BOWL", "beaten", 430_000, DAY, made_in="LESSON", discard_at=NOW + timedelta(hours=4))


def judged(entry=ENTRY, lots=(FIRST, SECOND), unread=(), now=NOW):
    demand(entry, {lot.code: lot for lot in lots}, unread, 57_000, now)


@pytest.mark.parametrize(("grams", "pieces"), [(430, 9), (400, 8), (401, 9), (0, 0)])
def test_pieces_are_added_first_and_rounded_up_once(grams, pieces):
    assert pieces_for(Fraction(grams * 1000), 50_000) == pieces


def test_the_earliest_date_goes_first_and_no_piece_is_split():
    assert lots_for(9, 57_000, [SECOND, FIRST], DAY) == {"A": 4, "B": 5}
    assert lots_for(9, 57_000, [replace(FIRST, on_hand_milligrams=100_000)], DAY) == {"A": 1}
    assert lots_for(9, 57_000, [BOWL], DAY) == {}


def test_four_hours_are_proposed_and_said_to_be_common_practice():
    # Common practice, no source; the college sets its own time.
    assert discard_proposed(NOW) - NOW == timedelta(hours=4)
    assert LIMIT.seen == "common practice"


def test_labels_together_keep_what_is_contained_out_of_what_may_be():
    label = together([(["egg"], ["milk"]), (["milk"], ["soya"])])
    assert (set(label.contains), label.may_contain) == ({"egg", "milk"}, ("soya",))


def test_as_many_kits_are_ticked_as_a_bowl_is_enough_for():
    assert fitting([(1, 200), (2, 300), (3, 100)], 350) == [1, 3]
    assert fitting([(1, 200)], 0) == []


def test_a_bowl_as_it_should_be_is_not_refused():
    judged()


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"entry": replace(ENTRY, made_at=NOW + timedelta(hours=1))}, "made_later"),
        ({"entry": replace(ENTRY, discard_at=NOW)}, "discard_before_made"),
        ({"now": NOW + timedelta(hours=4)}, "discard_passed"),
        ({"unread": ["A"]}, "label_not_read"),
        ({"lots": (replace(FIRST, held=True),)}, "lot_barred"),
        ({"lots": (replace(FIRST, reserved_free_from=True),)}, "lot_barred"),
        ({"lots": (replace(FIRST, names_more=("milk",)),)}, "lot_barred"),
        ({"lots": (replace(FIRST, dated_on=date(2027, 2, 15)),)}, "lot_barred"),
        ({"lots": (BOWL,)}, "lot_barred"),
        ({"entry": replace(ENTRY, milligrams=9 * 57_000 + 1)}, "weighs_more"),
    ],
)
def test_what_may_not_be_is_refused_by_its_name(given, code):
    with pytest.raises(RuleBroken) as refused:
        judged(**given)
    assert refused.value.code == code


@pytest.mark.parametrize(
    "nonsense",
    [{"milligrams": 0}, {"pieces": ()}, {"pieces": (("A", 0),)}, {"made_at": datetime(2027, 2, 16, 8)}],
)
def test_a_bowl_of_nothing_or_of_no_time_is_no_bowl(nonsense):
    with pytest.raises(ValueError):
        replace(ENTRY, **nonsense)


def use(lesson="LESSON", hours=0.0):
    return Use(DAY, lesson, NOW + timedelta(hours=hours))


def test_a_made_lot_is_for_its_own_lesson_until_its_time_and_never_for_a_free_from_kit():
    assert barred(BOWL, use()) == ""
    assert barred(BOWL, use(hours=3.99)) == ""
    assert "thrown away by 12:30 on 16 Feb" in barred(BOWL, use(hours=4))
    assert "belongs to the lesson" in barred(BOWL, use("OTHER"))
    assert "belongs to the lesson" in barred(BOWL, DAY)
    assert "pieces of its own" in barred(BOWL, use(), free_from=True)


def test_of_two_bowls_the_one_that_is_thrown_away_first_is_used_first():
    later = replace(BOWL, code="AAAA", discard_at=NOW + timedelta(hours=5))
    answer = allocate([LineNeed(1, "beaten", 500_000)], [later, BOWL], use())
    assert answer.by_lot("beaten") == (("BOWL", 430_000), ("AAAA", 70_000))
