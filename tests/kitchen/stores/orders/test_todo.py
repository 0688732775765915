"""What is to be done next with a week comes in the order in which it presses."""

from datetime import date, datetime

from kitchen.stores.orders.todo import Draft, send_first, then_accept

NOW = datetime(2027, 2, 18, 9)


def draft(code, day, hour=12):
    return Draft(code, "Dairy", datetime(2027, 2, day, hour), f"/orders/{code}/")


def test_a_draft_that_is_too_late_comes_first_and_says_so():
    todo = send_first([draft("B", 19), draft("A", 18, 8)], NOW)
    assert [(each.state, each.target) for each in todo] == [("late", "/orders/A/"), ("waiting", "/orders/B/")]
    assert "was not sent in time" in todo[0].words and todo[1].when == "by 12:00 on Friday 19 February"


def test_what_cannot_come_is_said_before_what_is_accepted_and_what_is_not_counted_last():
    todo = then_accept([(NOW, 3), (NOW, 1)], [("Mill", 420)], 2, 1, date(2027, 2, 22))
    assert [each.target for each in todo] == ["#late", "#refused-1", "#order", "#waiting"]
    assert todo[1].words == "No order can be placed with Mill: short by £4.20."
    assert todo[2].words == "Look at 2 orders below and accept them."


def test_nothing_to_do_is_nothing():
    assert send_first([], NOW) == then_accept([], [], 0, 0, date(2027, 2, 22)) == ()
