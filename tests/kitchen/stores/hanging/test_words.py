"""What hangs on a cancelled or moved lesson is said with what to do, and nothing is left out."""

from dataclasses import replace
from datetime import date

import pytest

from kitchen.stores.hanging.words import Bowl, Facts, Ordered, if_cancelled, if_moved

DAY, LATER = date(2027, 2, 16), date(2027, 2, 18)
ORDER = Ordered("ORD23456", "Quernstone Mill", date(2027, 2, 15), True, "3 packs of 1,500 g plain flour")
BOWL = Bowl("MD-1", "Beaten egg, 800 g", "12:00 on Tuesday 16 February")
BARE = Facts(DAY)


def said(found):
    return " ".join(f"{each.what} {each.do}" for each in found)


@pytest.mark.parametrize(
    ("change", "what", "do"),
    [
        ({"waiting": 2}, "Requisition number 2 is submitted and not approved.", "nothing of it is bought"),
        ({"requisition": 1, "approved": True}, "Requisition number 1 is approved.", "stays ordered"),
        (
            {"orders": (ORDER,)},
            "Order ORD23456 to Quernstone Mill for Monday 15 February was sent",
            "Agree with the supplier",
        ),
        ({"orders": (replace(ORDER, sent=False),)}, "is to be sent", "take off by hand"),
        ({"kit_set": 2}, "Kits of set 2 are made, and nothing is weighed.", "Nothing is to be put back"),
        ({"kit_set": 2, "lines_weighed": 12}, "Twelve lines of set 2 are weighed out", "Empty the trays"),
        (
            {"kit_set": 2, "kits_out": 1, "lines_weighed": 3},
            "One kit of set 2 has left the stores.",
            "must come back",
        ),
        ({"bowls": (BOWL,)}, "Lot MD-1 was made for this lesson", "write it off as waste"),
        ({"things_out": 14}, "14 things of its small equipment are counted out.", "Count them in"),
        (
            {"things_out": 3, "knives_out": ("2 chef knives",)},
            "Three things of its small equipment are counted out.",
            "Find first what cuts: 2 chef knives. Count them in",
        ),
        ({"things_out": 1}, "One thing of its small equipment is counted out.", "stays open"),
        ({"prints": 3}, "Three papers of it were printed.", "throw them away"),
    ],
)
def test_each_thing_of_a_cancelled_lesson_is_said_once_with_what_to_do(change, what, do):
    (one,) = if_cancelled(replace(BARE, **change))
    assert what in one.what and do in one.do


def test_nothing_hangs_on_a_lesson_of_which_the_stores_hold_nothing():
    assert if_cancelled(BARE) == () and if_moved(replace(BARE, asked_for=DAY)) == ()


def test_a_moved_lesson_names_both_days_and_what_was_made_for_the_first():
    facts = replace(BARE, on=LATER, asked_for=DAY, requisition=1, approved=True, kit_set=1, kits_out=7)
    words = said(if_moved(replace(facts, bowls=(BOWL,))))
    assert "submitted for Tuesday 16 February; the lesson is on Thursday 18 February." in words
    assert "Seven kits left the stores for Tuesday 16 February." in words
    assert "Throw away what does not keep until the lesson." in words


def test_an_order_that_comes_after_a_lesson_moved_forward_is_named_and_one_before_is_not():
    facts = replace(BARE, on=date(2027, 2, 14), asked_for=DAY, requisition=1, orders=(ORDER,))
    assert "It comes after the lesson" in said(if_moved(facts))
    assert "It comes after" not in said(if_moved(replace(facts, on=LATER)))
