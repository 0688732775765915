"""What was said of a lot stands until the last word is taken back."""

from datetime import date

from kitchen.stores.lots.opened.standing import Said, standing

DAY = date(2027, 2, 16)


def said(number, kind, undone=False):
    return Said(number, kind, DAY, undone, number)


def test_the_last_word_is_taken_back_first():
    rows = [said(1, "opened"), said(2, "thawed"), said(3, "thawed", undone=True)]
    assert [row.number for row in standing(rows)] == [1]
    assert standing([*rows, said(4, "opened", undone=True)]) == ()


def test_what_was_taken_back_can_be_said_again_and_order_is_by_number():
    rows = [said(3, "opened"), said(1, "opened"), said(2, "opened", undone=True)]
    assert [row.number for row in standing(rows)] == [3]
