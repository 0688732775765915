"""Fixing by hand and letting go: kept once, moved, never for a class that runs or is cancelled."""

import pytest
from django.db import IntegrityError, transaction

from curriculum.errors import RuleBroken
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Appliance, Room
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.models import TimePlan
from kitchen.timeplan.pins import actions
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.pins.models import Pin
from kitchen.timeplan.pins.queries import pins_of
from kitchen.timeplan.queries import lesson_data, plan_page
from tests.builders.cast import build_cast
from tests.builders.running import begun

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def started(cast, minute=30, **more):
    pins = (PinData(0, START, "1", 1, minute=minute, **more),)
    return actions.fix_start(lesson=cast.lesson, pins=pins, by=cast.lecturer)


def test_a_start_is_kept_with_who_fixed_it_and_read_into_the_lesson(cast):
    (row,) = started(cast)
    assert (row.kind, row.bench, row.step, row.minute, row.by) == ("start", 1, 1, 30, cast.lecturer)
    assert lesson_data(cast.lesson).pins == (PinData(row.pk, START, "1", 1, minute=30),)


def test_a_start_fixed_again_moves(cast):
    (first,), (second,) = started(cast), started(cast, 40)
    assert first.pk == second.pk
    assert Pin.objects.get().minute == 40


def test_an_oven_is_kept_and_one_that_is_not_in_the_room_is_refused(cast):
    pin = PinData(0, OVEN, "1", 2, 1, oven="oven-1")
    (row,) = actions.fix_oven(lesson=cast.lesson, pins=(pin,), by=cast.lecturer)
    assert row.appliance.code == "oven-1"
    assert pins_of(cast.lesson)[0].oven == "oven-1"
    with pytest.raises(RuleBroken, match="no such oven"):
        other = PinData(0, OVEN, "1", 2, 1, oven="oven-9")
        actions.fix_oven(lesson=cast.lesson, pins=(pin, other), by=cast.lecturer)
    assert Pin.objects.count() == 1


def test_an_oven_of_another_room_is_refused(cast):
    room = Room.objects.create(code="next-door", name="Next door")
    Appliance.objects.create(room=room, code="oven-2", name="Oven 2", kind="oven", units=1)
    with pytest.raises(RuleBroken, match="no such oven"):
        pins = (PinData(0, OVEN, "1", 2, 1, oven="oven-2"),)
        actions.fix_oven(lesson=cast.lesson, pins=pins, by=cast.lecturer)


def test_the_same_order_twice_is_one(cast):
    pin = PinData(0, ORDER, "1", 1, other_bench="1", other_step=2, other_part=0)
    for _ in range(2):
        actions.fix_order(lesson=cast.lesson, pins=(pin,), by=cast.lecturer)
    assert Pin.objects.count() == 1


def test_what_is_let_go_is_gone_and_letting_go_again_is_no_error(cast):
    rows = started(cast)
    assert actions.let_go(lesson=cast.lesson, pins=rows, by=cast.lecturer) == 1
    assert actions.let_go(lesson=cast.lesson, pins=rows, by=cast.lecturer) == 0
    assert pins_of(cast.lesson) == ()


def test_nothing_of_another_lesson_is_let_go(cast):
    rows = started(cast)
    assert actions.let_go(lesson=cast.other_lesson, pins=rows, by=cast.lecturer) == 0
    assert Pin.objects.count() == 1


def test_nothing_is_fixed_in_a_cancelled_lesson_or_a_running_class(cast):
    Lesson.objects.filter(pk=cast.lesson.pk).update(state=Lesson.State.CANCELLED)
    with pytest.raises(RuleBroken, match="cancelled"):
        started(cast)
    Lesson.objects.filter(pk=cast.lesson.pk).update(state=cast.lesson.state)
    begun(cast, 0)
    with pytest.raises(RuleBroken, match="page of the day"):
        started(cast)


def test_more_than_the_most_are_refused_and_none_is_kept(cast, monkeypatch):
    monkeypatch.setattr(actions, "MOST_PINS", 1)
    pins = tuple(PinData(0, START, "1", step, minute=30) for step in (1, 2))
    with pytest.raises(RuleBroken, match="2 things fixed in this lesson; 1 are the most"):
        actions.fix_start(lesson=cast.lesson, pins=pins, by=cast.lecturer)
    assert not Pin.objects.exists()


def test_an_accepted_plan_keeps_what_was_fixed(cast):
    (row,) = started(cast)
    accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)
    (kept,) = TimePlan.objects.get().inputs["fixed"]
    assert (kept["number"], kept["minute"]) == (row.pk, 30)
    actions.let_go(lesson=cast.lesson, pins=(row,), by=cast.lecturer)
    assert plan_page(cast.lesson).moved_on


@pytest.mark.parametrize(
    "facts",
    [
        {"kind": "start", "bench": 1, "step": 1},
        {"kind": "oven", "bench": 1, "step": 1},
        {"kind": "order", "bench": 1, "step": 1, "other_bench": 1},
    ],
)
def test_a_row_that_does_not_say_all_is_refused_by_the_database(cast, facts):
    with pytest.raises(IntegrityError), transaction.atomic():
        Pin.objects.create(lesson=cast.lesson, by=cast.lecturer, **facts)


BEFORE = {"kind": "order", "bench": 1, "step": 2, "other_bench": 1, "other_step": 3, "other_part": 0}


@pytest.mark.parametrize(
    "facts",
    [
        {"kind": "start", "bench": 0, "step": 1, "minute": 30},
        {"kind": "start", "bench": 1, "step": 0, "minute": 30},
        {"kind": "start", "bench": 1, "step": 1, "minute": 30, "other_bench": 2},
        BEFORE | {"minute": 30},
        BEFORE | {"other_step": 2},
        BEFORE | {"other_bench": 0},
    ],
)
def test_a_row_that_says_what_means_nothing_is_refused_by_the_database(cast, facts):
    Pin.objects.create(lesson=cast.lesson, by=cast.lecturer, **BEFORE)
    with pytest.raises(IntegrityError, match="timeplan_"), transaction.atomic():
        Pin.objects.create(lesson=cast.lesson, by=cast.lecturer, **facts)


def test_an_oven_is_fixed_without_a_minute(cast):
    oven = Appliance.objects.filter(room=cast.lesson.room, kind="oven").first()
    facts = {"lesson": cast.lesson, "by": cast.lecturer, "kind": "oven", "bench": 1, "step": 1}
    Pin.objects.create(**facts, appliance=oven)
    with pytest.raises(IntegrityError, match="timeplan_fixed_oven_says_which_only"), transaction.atomic():
        Pin.objects.create(**facts | {"step": 2}, appliance=oven, minute=30)


def test_what_is_fixed_is_read_in_one_query(cast, django_assert_num_queries):
    for step in range(1, 31):
        row = {"kind": "start", "bench": 1, "step": step, "minute": 30, "by": cast.lecturer}
        Pin.objects.create(lesson=cast.lesson, **row)
    with django_assert_num_queries(1):
        assert len(pins_of(cast.lesson)) == 30
