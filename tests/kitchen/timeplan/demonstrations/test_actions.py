"""A demonstration is accepted once, superseded by the next, and refused when it cannot be."""

import uuid

import pytest

from curriculum.errors import RuleBroken
from kitchen.lessons.models import Lesson
from kitchen.timeplan.demonstration import chosen, plan
from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstration_kept import read_demonstration
from kitchen.timeplan.demonstrations.actions import accept_demonstration
from kitchen.timeplan.demonstrations.queries import inputs_of, shows_of
from kitchen.timeplan.models import DemonstrationPlan
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def accept(cast, slot=30, made=None, **more):
    shows = shows_of(cast.lesson)
    made = made or plan(shows.recipe, slot)
    return accept_demonstration(
        lesson=cast.lesson, plan=made, inputs=inputs_of(shows, slot, ()), by=cast.lecturer, **more
    )


def test_an_accepted_plan_is_kept_with_what_it_came_from(cast):
    row = accept(cast)
    assert (row.state, row.number, row.slot_minutes, row.by) == ("accepted", 1, 30, cast.lecturer)
    assert read_demonstration(row.answer) == plan(shows_of(cast.lesson).recipe, 30)
    assert row.inputs["recipe"] == "shortbread"


def test_the_next_one_supersedes_it(cast):
    first, second = accept(cast, 30), accept(cast, 45)
    first.refresh_from_db()
    assert (first.state, second.state, second.number) == ("superseded", "accepted", 2)


def test_the_same_one_once_more_changes_nothing(cast):
    assert accept(cast).pk == accept(cast).pk
    assert DemonstrationPlan.objects.count() == 1


def test_a_form_sent_twice_is_done_once(cast):
    key = uuid.uuid4()
    assert accept(cast, 30, key=key).pk == accept(cast, 30, key=key).pk
    with pytest.raises(RuleBroken, match="already sent"):
        accept(cast, 45, key=key)


def test_stages_longer_than_the_slot_are_refused_and_nothing_is_kept(cast):
    recipe = shows_of(cast.lesson).recipe
    long = chosen(recipe, (Shown(1, "live", 10), Shown(2, "stage_tray", 5)), 12)
    with pytest.raises(RuleBroken, match="take 15 minutes and you give 12"):
        accept(cast, 12, long)
    assert not DemonstrationPlan.objects.exists()


def test_no_stage_at_all_is_refused(cast):
    with pytest.raises(RuleBroken, match="No step is shown"):
        accept(cast, 12, chosen(shows_of(cast.lesson).recipe, (), 12))


def test_a_cancelled_lesson_shows_nothing(cast):
    Lesson.objects.filter(pk=cast.lesson.pk).update(state=Lesson.State.CANCELLED)
    with pytest.raises(RuleBroken, match="cancelled"):
        accept(cast)
