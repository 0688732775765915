"""Taps are kept once and in order; a re-plan that is accepted supersedes; paces are kept."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from kitchen.timeplan.day import actions
from kitchen.timeplan.day.actions import Said
from kitchen.timeplan.day.after import Pace
from kitchen.timeplan.day.proposal import Proposal, proposal_of
from kitchen.timeplan.day.situation import situation
from kitchen.timeplan.day.solver import replan
from kitchen.timeplan.models import DayEvent, LearnedMinutes, TimePlan
from tests.builders.cast import build_cast
from tests.builders.running import begun, more_benches, now_of, planned, second_oven, tapped

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def refused(code, cast, *args, **more):
    before = DayEvent.objects.count()
    with pytest.raises(RuleBroken) as error, transaction.atomic():
        tapped(cast, *args, **more)
    assert error.value.code == code
    assert DayEvent.objects.count() == before


def test_events_are_numbered_in_order_and_say_plan_place_and_person(cast):
    begun(cast)
    event = tapped(cast, "started", "1", 1, 0)
    assert (event.number, event.what, event.step, event.part) == (2, "started", 1, 0)
    assert (event.place, event.by, event.plan.number) == (cast.place, cast.lecturer, 1)


def test_a_tap_of_two_devices_on_the_same_step_is_one_event(cast):
    begun(cast)
    first = tapped(cast, "started", "1", 1, 0)
    assert tapped(cast, "started", "1", 1, 0) == first
    done = tapped(cast, "done", "1", 1, 0)
    assert tapped(cast, "done", "1", 1, 0) == done
    assert DayEvent.objects.count() == 3


def test_a_key_sent_twice_counts_once_and_with_other_contents_is_refused(cast):
    begun(cast)
    key = uuid4()
    said = Said("later", "1", 1, 0, minutes=5)
    first = actions.tap(lesson=cast.lesson, said=said, by=cast.lecturer, key=key)
    assert actions.tap(lesson=cast.lesson, said=said, by=cast.lecturer, key=key) == first
    with pytest.raises(RuleBroken):
        actions.tap(lesson=cast.lesson, said=Said("later", "1", 1, 0, minutes=9), by=cast.lecturer, key=key)
    assert DayEvent.objects.filter(what="later").count() == 1


def test_five_minutes_more_twice_are_ten(cast):
    begun(cast)
    for _ in range(2):
        tapped(cast, "later", "1", 1, 0, minutes=5)
    state = now_of(cast).state
    assert state.not_before["1/1/0"] == state.plan.starts["1/1/0"] + 10
    assert state.later == {}


def test_an_undo_is_a_row_of_its_own_and_twice_is_once(cast):
    begun(cast)
    done = tapped(cast, "started", "1", 1, 0)
    undo = tapped(cast, "undo", undoes=done.number)
    assert undo.undoes == done
    assert tapped(cast, "undo", undoes=done.number) == undo
    assert now_of(cast).state.begun == {}
    assert tapped(cast, "started", "1", 1, 0).number == 4


def test_the_beginning_is_undone_last(cast):
    began = begun(cast)
    tapped(cast, "started", "1", 1, 0)
    refused("undo_order", cast, "undo", undoes=began.number)
    refused("nothing_to_undo", cast, "undo", undoes=99)


def test_what_cannot_be_is_refused_in_words(cast):
    planned(cast)
    refused("not_begun", cast, "started", "1", 1, 0)
    tapped(cast, "began")
    refused("no_such_bench", cast, "started", "7", 1, 0)
    refused("no_step", cast, "done", "1")
    refused("no_step", cast, "later", "1", 1, 0)
    refused("no_step", cast, "started", "1", 999, 0)
    refused("no_step", cast, "started", "1", 1, 7)
    refused("no_step", cast, "started", "", 999, 0)
    refused("no_oven", cast, "failed")
    refused("no_bench", cast, "absent")
    refused("no_such_oven", cast, "failed", oven="oven-9")


def test_without_a_plan_or_in_a_cancelled_lesson_nothing_is_tapped(cast):
    refused("no_plan", cast, "began")
    planned(cast)
    cast.lesson.state = "cancelled"
    cast.lesson.save()
    refused("cancelled", cast, "began")


def test_a_moment_that_cannot_be_is_not_believed(cast):
    begun(cast, 20)
    tomorrow = Said("started", "1", 1, 0, device_at=timezone.now() + timedelta(hours=1))
    assert actions.tap(lesson=cast.lesson, said=tomorrow, by=cast.lecturer).device_at is None
    old = Said("later", "1", 1, 0, minutes=5, device_at=timezone.now() - timedelta(days=2))
    assert actions.tap(lesson=cast.lesson, said=old, by=cast.lecturer).device_at is None
    late = tapped(cast, "done", "1", 1, 0, ago=3)
    assert late.device_at is not None


def test_an_event_is_never_changed_or_deleted(cast):
    event = begun(cast)
    with pytest.raises(TypeError):
        event.save()
    with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE kitchen_dayevent SET step = 3")
    with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("DELETE FROM kitchen_dayevent")


def a_proposal(cast) -> Proposal:
    progress = now_of(cast)
    found = replan(situation(progress.state, progress.row.finish_minutes), seconds=0.3)
    return proposal_of(found, progress.row.number, progress.last_number)


@pytest.fixture
def late(cast):
    """Bench 1 rubs in for twenty minutes more; what follows must move."""
    second_oven(cast)
    more_benches(cast, 1)
    begun(cast, 20)
    tapped(cast, "started", "1", 1, 0, ago=5)
    for _ in range(4):
        tapped(cast, "later", "1", 1, 0, minutes=5)
    return cast


def test_an_accepted_re_plan_is_the_next_plan_and_moves_nothing_that_has_begun(late):
    before = now_of(late)
    row = actions.accept_replan(lesson=late.lesson, proposal=a_proposal(late), by=late.lecturer)
    after = now_of(late)
    assert (row.number, row.status, row.by) == (2, "on the day", late.lecturer)
    assert TimePlan.objects.filter(state="accepted").get() == row
    assert row.inputs["basis"] == before.row.inputs["basis"]
    assert after.answer.starts["1/1/0"] == before.state.begun["1/1/0"]
    assert after.answer.starts["1/2/0"] > before.answer.starts["1/2/0"]
    assert row.bound_minutes <= row.finish_minutes


def test_after_it_nothing_moves_any_more(late):
    actions.accept_replan(lesson=late.lesson, proposal=a_proposal(late), by=late.lecturer)
    progress = now_of(late)
    again = replan(situation(progress.state, progress.row.finish_minutes), seconds=0.3)
    assert again.price.moved == 0


def test_the_same_proposal_accepted_twice_is_one_plan(late):
    proposal = a_proposal(late)
    first = actions.accept_replan(lesson=late.lesson, proposal=proposal, by=late.lecturer)
    assert actions.accept_replan(lesson=late.lesson, proposal=proposal, by=late.cover) == first
    assert TimePlan.objects.count() == 2


def test_a_proposal_from_before_the_last_tap_is_refused(late):
    proposal = a_proposal(late)
    tapped(late, "later", "1", 1, 0, minutes=5)
    with pytest.raises(RuleBroken) as error:
        actions.accept_replan(lesson=late.lesson, proposal=proposal, by=late.lecturer)
    assert error.value.code == "class_moved_on"
    assert TimePlan.objects.count() == 1


def test_a_proposal_that_was_left_lying_is_refused_and_looked_at_anew(late, monkeypatch):
    proposal = a_proposal(late)
    later = timezone.now() + timedelta(minutes=30)
    monkeypatch.setattr(actions.timezone, "now", lambda: later)
    with pytest.raises(RuleBroken) as error:
        actions.accept_replan(lesson=late.lesson, proposal=proposal, by=late.lecturer)
    assert error.value.code == "class_moved_on" and "Time went on" in error.value.message
    assert TimePlan.objects.count() == 1


def test_no_proposal_is_accepted_for_a_cancelled_lesson(late):
    proposal = a_proposal(late)
    late.lesson.state = "cancelled"
    late.lesson.save()
    with pytest.raises(RuleBroken) as error:
        actions.accept_replan(lesson=late.lesson, proposal=proposal, by=late.lecturer)
    assert error.value.code == "cancelled"
    assert TimePlan.objects.count() == 1


def test_a_proposal_that_cannot_be_cooked_is_refused(late):
    proposal = a_proposal(late)
    starts = {**proposal.starts, "1/2/0": 1}
    broken = Proposal(proposal.plan_number, proposal.last_number, proposal.now, starts, proposal.ovens)
    with pytest.raises(RuleBroken) as error:
        actions.accept_replan(lesson=late.lesson, proposal=broken, by=late.lecturer)
    assert error.value.code == "cannot_be_cooked"


@pytest.mark.parametrize("what", ["absent", "again"])
def test_what_two_tablets_say_of_one_bench_is_told_once_and_twice_when_it_was_seen(cast, what):
    begun(cast)
    seen = now_of(cast).last_number
    first = tapped(cast, what, "1", seen=seen)
    assert tapped(cast, what, "1", seen=seen) == first
    assert tapped(cast, what, "1", seen=first.number) != first


def test_what_counts_no_more_is_not_undone(cast):
    begun(cast)
    start = tapped(cast, "started", "1", 1, 0)
    undo = tapped(cast, "undo", undoes=start.number)
    with pytest.raises(RuleBroken) as error:
        tapped(cast, "undo", undoes=undo.number)
    assert error.value.code == "nothing_to_undo"


def test_a_pace_is_kept_once_and_a_corrected_day_takes_its_place(cast):
    pace = Pace("rubbing_in", "foundation", (1200,) * 5)
    first = actions.learn(lesson=cast.lesson, pace=pace, by=cast.lecturer)
    assert actions.learn(lesson=cast.lesson, pace=pace, by=cast.lecturer) == first
    assert (first.pace_per_mille, first.count, first.lessons) == (1200, 5, [cast.lesson.code])
    corrected = Pace("rubbing_in", "foundation", (1100,) * 9)
    second = actions.learn(lesson=cast.lesson, pace=corrected, by=cast.lecturer)
    assert LearnedMinutes.objects.filter(state="accepted").get() == second
    assert (second.pace_per_mille, second.count) == (1100, 9)


def test_a_second_day_is_kept_together_with_the_first(cast):
    """Five timings of 1.2 and three of 1.0: the median of the eight is 1.2, of two lessons."""
    actions.learn(lesson=cast.lesson, pace=Pace("rubbing_in", "foundation", (1200,) * 5), by=cast.lecturer)
    pace = Pace("rubbing_in", "foundation", (1000,) * 3)
    row = actions.learn(lesson=cast.other_lesson, pace=pace, by=cast.lecturer)
    assert (row.pace_per_mille, row.count) == (1200, 8)
    assert row.lessons == sorted([cast.lesson.code, cast.other_lesson.code])
    assert row.timings[cast.lesson.code] == [1200] * 5
