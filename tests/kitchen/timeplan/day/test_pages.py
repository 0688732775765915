"""The sentences of the pages of the day."""

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace

from kitchen.timeplan.day.pages import kept_until, look_words


def test_steps_that_cannot_begin_as_planned_are_counted_and_no_step_is_not_counted():
    hold = ("Bench 1: between step 3 and step 4 food waits 37 min; the recipe allows 15 min.",)
    ends = "As it stands the last bench ends at 15:52."
    assert look_words(0, 0, hold, 952) == f"{hold[0]} {ends}"
    assert look_words(1, 0, (), 952) == f"One step cannot begin as planned. {ends}"
    later = "Two steps cannot begin as planned, the latest 7 min later."
    assert look_words(2, 7, hold, 952) == f"{later} {hold[0]} {ends}"


def test_a_page_is_kept_until_two_hours_after_the_lesson_s_end_by_its_own_clock():
    midnight = datetime(2027, 2, 16, 3, 10, tzinfo=UTC)
    at = datetime(2027, 2, 16, 12, 30, tzinfo=UTC)
    running = SimpleNamespace(midnight=midnight, at=at, plan=SimpleNamespace(ends=12 * 60 + 15))
    assert kept_until(running) == datetime(2027, 2, 16, 17, 25, tzinfo=UTC)
    assert kept_until(SimpleNamespace(midnight=None, at=at)) == at + timedelta(hours=12)
