"""A class in progress as it is read: its clock, its deeds, and in how many queries."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from django.utils import timezone

from curriculum.errors import RuleBroken
from kitchen.timeplan.day.queries import in_progress, zero_of
from kitchen.timeplan.models import DayEvent
from tests.builders.cast import build_cast
from tests.builders.running import begun, more_benches, now_of, planned, tapped

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def began_at(cast, moment):
    planned(cast)
    progress = in_progress(cast.lesson, moment)
    event = DayEvent(lesson=cast.lesson, number=1, plan=progress.row, what="began", device_at=moment)
    return zero_of(cast.lesson, progress.plan, (event,))


def test_without_a_plan_there_is_nothing_to_run(cast):
    with pytest.raises(RuleBroken):
        in_progress(cast.lesson, timezone.now())


def test_before_it_began_the_clock_stands_at_the_start(cast):
    planned(cast)
    progress = now_of(cast)
    assert progress.zero is None
    assert progress.now == -15


def test_begun_near_its_time_a_lesson_goes_by_the_wall(cast):
    zone = ZoneInfo("Europe/London")
    zero = began_at(cast, datetime(2027, 2, 16, 9, 7, tzinfo=zone))
    assert zero == datetime(2027, 2, 16, 9, 15, tzinfo=zone)


def test_begun_at_any_other_time_that_moment_is_its_start(cast):
    moment = timezone.now().replace(microsecond=0)
    assert began_at(cast, moment) == moment + timedelta(minutes=15)


def test_a_tap_that_was_sent_later_counts_at_the_moment_it_was_made(cast):
    begun(cast, 40)
    tapped(cast, "started", "1", 1, 0, ago=20)
    assert now_of(cast).state.begun["1/1/0"] == 5


def test_the_last_thing_done_passes_over_what_was_undone(cast):
    begun(cast)
    first = tapped(cast, "started", "1", 1, 0)
    second = tapped(cast, "later", "1", 1, 0, minutes=5)
    assert now_of(cast).last == second
    tapped(cast, "undo", undoes=second.number)
    assert now_of(cast).last == first


@pytest.mark.parametrize("count", [3, 30])
def test_the_class_is_read_in_four_queries(cast, count, django_assert_num_queries):
    more_benches(cast, count)
    begun(cast)
    for number in range(2, count + 2):
        tapped(cast, "started", str(number), 1, 0)
    with django_assert_num_queries(4):
        now_of(cast)
