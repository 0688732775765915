"""Accepting a plan, asking for more, taking a way out: one change each, or none."""

from dataclasses import replace
from datetime import date

import pytest

from curriculum.courses.models import Holiday
from curriculum.errors import RuleBroken
from curriculum.records.models import Job
from kitchen.lessons.models import Lesson, Place
from kitchen.timeplan import actions
from kitchen.timeplan.drafts import draft_of
from kitchen.timeplan.fits import judge
from kitchen.timeplan.models import TimePlan
from kitchen.timeplan.queries import lesson_data
from kitchen.timeplan.ways_out import WayOut
from tests.builders.cast import build_cast
from tests.builders.running import tapped

pytestmark = pytest.mark.django_db

WAY = WayOut("pairs+ahead", "Do step 1 ahead.", (1,), True, 1, 1, 22, 135, 25, 22, "found")


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def draft(cast):
    return draft_of(lesson_data(cast.lesson))


def test_an_accepted_plan_keeps_what_it_was_computed_from(cast, draft):
    row = actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    assert (row.number, row.state, row.by) == (1, "accepted", cast.lecturer)
    assert row.inputs["basis"] == draft.basis == row.inputs_hash
    assert row.inputs["question"]["usable_minutes"] == 135
    assert (row.finish_minutes, row.fits) == (draft.plan.finish_minutes, True)
    assert row.bound_minutes <= row.finish_minutes


def test_accepting_the_same_plan_twice_changes_nothing(cast, draft):
    first = actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    again = actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.cover)
    assert again == first
    assert TimePlan.objects.count() == 1


def test_another_plan_supersedes_the_one_that_stood(cast, draft):
    first = actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    planned = judge(lesson_data(cast.lesson), None).planned
    second = actions.accept_plan(lesson=cast.lesson, planned=planned, by=cast.lecturer)
    first.refresh_from_db()
    assert (first.state, second.state, second.number) == ("superseded", "accepted", 2)


def test_a_plan_of_a_lesson_that_has_changed_is_refused(cast, draft):
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    with pytest.raises(RuleBroken) as refused:
        actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    assert refused.value.code == "lesson_changed"
    assert not TimePlan.objects.exists()


def test_a_plan_is_judged_by_the_lesson_as_it_stands_and_not_as_it_was_opened(cast, draft):
    Lesson.objects.filter(pk=cast.lesson.pk).update(minutes=cast.lesson.minutes - 30)
    with pytest.raises(RuleBroken) as refused:
        actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    assert refused.value.code == "lesson_changed"
    assert not TimePlan.objects.exists()


def test_nothing_is_accepted_without_a_plan_or_for_a_cancelled_lesson(cast, draft):
    with pytest.raises(RuleBroken) as none:
        actions.accept_draft(lesson=cast.lesson, draft=replace(draft, plan=None), by=cast.lecturer)
    assert none.value.code == "no_plan"
    Lesson.objects.filter(pk=cast.lesson.pk).update(state=Lesson.State.CANCELLED)
    with pytest.raises(RuleBroken) as cancelled:
        actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    assert cancelled.value.code == "cancelled"


def test_a_longer_search_is_asked_for_once_at_a_time(cast):
    first = actions.plan_longer(lesson=cast.lesson, by=cast.lecturer)
    assert actions.plan_longer(lesson=cast.lesson, by=cast.lecturer) == first
    Job.objects.filter(pk=first.pk).update(state=Job.State.DONE)
    assert actions.plan_longer(lesson=cast.lesson, by=cast.lecturer) != first


def test_a_way_out_without_the_break_and_with_nothing_kept_free_is_no_longer_slot(cast):
    cast.lesson.break_after, cast.lesson.break_minutes, cast.lesson.contingency_minutes = 75, 15, 10
    cast.lesson.save()
    way = replace(WAY, kind="no_break+no_contingency", ahead=(), pairs=False)
    way = replace(way, usable_minutes=cast.lesson.usable_minutes + 10)
    changed = actions.take_way_out(lesson=cast.lesson, way=way, by=cast.lecturer)
    assert (changed.break_minutes, changed.contingency_minutes, changed.minutes) == (0, 0, 180)


def test_a_way_out_changes_the_lesson(cast):
    cast.dish.working = "single"
    cast.dish.save()
    actions.take_way_out(lesson=cast.lesson, way=WAY, by=cast.lecturer)
    cast.dish.refresh_from_db()
    assert (cast.dish.working, cast.dish.ahead_steps, cast.dish.ahead_on) == ("pair", [1], date(2027, 2, 15))
    assert not Place.objects.filter(shift__lesson=cast.lesson).exists()


def test_fewer_portions_are_kept_with_the_dish(cast):
    way = replace(WAY, kind="fewer", ahead=(), pairs=False, portions=6)
    way = replace(way, usable_minutes=cast.lesson.usable_minutes)
    assert cast.dish.portions_a_bench != 6
    actions.take_way_out(lesson=cast.lesson, way=way, by=cast.lecturer)
    cast.dish.refresh_from_db()
    assert cast.dish.portions_a_bench == 6


def test_a_longer_slot_is_booked(cast):
    way = replace(WAY, kind="longer", ahead=(), pairs=False, usable_minutes=150)
    assert actions.take_way_out(lesson=cast.lesson, way=way, by=cast.lecturer).minutes == 195
    assert Place.objects.filter(shift__lesson=cast.lesson).exists()


def test_two_sittings_are_two_lessons(cast):
    with pytest.raises(RuleBroken) as refused:
        actions.take_way_out(lesson=cast.lesson, way=replace(WAY, sittings=2), by=cast.lecturer)
    assert refused.value.code == "two_sittings"


def test_the_day_before_is_a_day_on_which_the_college_is_open(cast):
    assert actions.day_before(date(2027, 2, 16)) == date(2027, 2, 15)
    assert actions.day_before(date(2027, 2, 15)) == date(2027, 2, 12)
    Holiday.objects.create(on=date(2027, 2, 12), words="Founders’ day")
    assert actions.day_before(date(2027, 2, 15)) == date(2027, 2, 11)


def test_what_the_page_showed_must_be_what_is_accepted(draft):
    actions.demand_seen(draft=draft, mark=draft.mark)
    shorter = replace(draft, plan=replace(draft.plan, finish_minutes=draft.plan.finish_minutes - 1))
    for other in (shorter, replace(draft, basis="another")):
        with pytest.raises(RuleBroken, match="has changed"):
            actions.demand_seen(draft=other, mark=draft.mark)


def test_only_a_way_that_was_found_is_taken(draft):
    found = replace(draft, ways=(WAY,))
    assert actions.way_named(draft=found, kind="pairs+ahead") == WAY
    with pytest.raises(RuleBroken, match="no longer offered"):
        actions.way_named(draft=found, kind="longer")


def test_without_a_plan_there_is_nothing_to_print():
    with pytest.raises(RuleBroken, match="to print"):
        actions.demand_plan(plan=None)


def test_a_class_that_has_begun_takes_its_next_plan_on_the_day(cast, draft):
    first = actions.accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    began = tapped(cast, "began")
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    other = draft_of(lesson_data(cast.lesson))
    with pytest.raises(RuleBroken) as error:
        actions.accept_draft(lesson=cast.lesson, draft=other, by=cast.lecturer)
    assert error.value.code == "class_runs"
    tapped(cast, "undo", undoes=began.number)
    assert actions.accept_draft(lesson=cast.lesson, draft=other, by=cast.lecturer) != first
