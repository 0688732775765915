"""What an order for a lesson refuses by itself."""

from datetime import date, time

import pytest

from curriculum.errors import RuleBroken
from kitchen.lessons.orders import BookingOrder, demand_none


def order(**changes):
    facts = dict(
        on=date(2027, 2, 16),
        starts=time(9),
        minutes=180,
        start_minutes=15,
        clear_minutes=30,
        room=1,
        group=1,
        lecturer=1,
        version=1,
        portions_a_bench=8,
        working="pair",
    )
    return BookingOrder(**(facts | changes))


def test_a_sound_order_has_no_troubles():
    assert order(ahead_steps=(1, 2), ahead_on=date(2027, 2, 15)).troubles() == []


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"portions_a_bench": 0}, "no_portions"),
        ({"ahead_steps": (1,)}, "no_day_ahead"),
        ({"ahead_steps": (1,), "ahead_on": date(2027, 2, 17)}, "ahead_after_lesson"),
        ({"minutes": 45}, "no_time_to_cook"),
        ({"minutes_a_plate": 4}, "plates_of_no_assessment"),
        ({"minutes": 180, "contingency_minutes": 135}, "no_time_to_cook"),
        ({"break_after": 14, "break_minutes": 10}, "break_outside_cooking"),
        ({"break_after": 131, "break_minutes": 10, "contingency_minutes": 10}, "break_outside_cooking"),
    ],
)
def test_nonsense_is_named(changes, code):
    assert [trouble.code for trouble in order(**changes).troubles()] == [code]


def test_a_break_may_fill_the_time_for_cooking_to_its_edges_and_is_told_by_the_clock():
    assert order(break_after=15, break_minutes=10).troubles() == []
    assert order(break_after=130, break_minutes=10, contingency_minutes=10).troubles() == []
    words = order(break_after=131, break_minutes=10, contingency_minutes=10).troubles()[0].message
    assert "end at 11:21" in words and "11:20" in words


def test_an_assessed_practical_may_have_minutes_a_plate():
    assert order(kind="assessed", minutes_a_plate=4).troubles() == []


def test_a_refusal_carries_every_field():
    with pytest.raises(RuleBroken) as refused:
        demand_none(order(portions_a_bench=0, minutes=45).troubles())
    assert [field for field, _ in refused.value.facts["at_fields"]] == ["ends", "portions_a_bench"]


def test_the_cover_is_who_teaches():
    assert order(cover=7).teacher == 7
    assert order().teacher == 1


def test_an_order_is_told_in_plain_values():
    assert order().said()["on"] == "2027-02-16"
