"""Keeping, handing in, opening again: one order that counts, nothing written over unseen."""

from datetime import date
from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction

from curriculum.errors import RuleBroken
from kitchen.lessons.models import Lesson
from kitchen.timeplan.own_order.actions import (
    demand_plan_open,
    hand_in_order,
    open_order_again,
    say_whether_assessed,
)
from kitchen.timeplan.own_order.models import OwnOrder, OwnOrderSetting
from kitchen.timeplan.own_order.written import WrittenOrder, read_order
from tests.builders.cast import build_cast
from tests.builders.own_order import GOOD, handed_in, kept, times

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def opened(cast, why="The lesson was moved.", **more):
    return open_order_again(lesson=cast.lesson, student=cast.learner, why=why, by=cast.lecturer, **more)


def test_what_is_kept_is_what_was_typed_even_where_it_cannot_be_read(cast):
    row = kept(cast, times("25:99", ""))
    assert read_order(row.lines) == times("25:99", "")
    assert (row.number, row.saved, row.state) == (1, 1, "draft")


def test_keeping_again_goes_on_in_the_same_order(cast):
    kept(cast)
    row = kept(cast, times("09:25", "09:45"), based_on=1)
    assert OwnOrder.objects.get() == row
    assert row.saved == 2


def test_each_learner_of_a_pair_has_an_order_of_their_own(cast):
    kept(cast)
    kept(cast, times("09:30", "09:50"), cast.partner)
    assert OwnOrder.objects.count() == 2


def test_what_was_kept_from_another_page_is_not_written_over(cast):
    kept(cast)
    kept(cast, times("09:25", "09:45"), based_on=1)
    with pytest.raises(
        RuleBroken, match=r"kept this order from another page on \d+ \w+ at \d\d:\d\d"
    ) as error:
        kept(cast, times("09:30", "09:50"), based_on=1)
    assert error.value.code == "kept_elsewhere"
    assert read_order(OwnOrder.objects.get().lines).line(1).at == "09:25"


def test_two_first_pages_do_not_write_over_one_another(cast):
    kept(cast)
    with pytest.raises(RuleBroken, match="another page"):
        kept(cast, times("09:30", "09:50"))


def test_the_same_form_sent_twice_is_kept_once(cast):
    key = uuid4()
    assert kept(cast, key=key) == kept(cast, key=key)
    assert OwnOrder.objects.get().saved == 1


def test_what_is_handed_in_stands(cast):
    row = handed_in(cast)
    assert row.is_handed_in
    assert row.handed_in_at is not None
    with pytest.raises(RuleBroken, match="Only your lecturer can open it again"):
        kept(cast, times("09:30", "09:50"), based_on=1)
    with pytest.raises(RuleBroken, match="Only your lecturer"):
        hand_in_order(lesson=cast.lesson, student=cast.learner, based_on=1, by=cast.student)


def test_what_breaks_a_rule_of_the_kitchen_may_be_handed_in(cast):
    assert handed_in(cast, times("09:20", "11:00")).is_handed_in


@pytest.mark.parametrize(
    ("order", "code"), [(times("25:99", "09:40"), "unreadable"), (times("", ""), "nothing_written")]
)
def test_what_cannot_be_read_or_has_no_time_is_not_handed_in(cast, order, code):
    kept(cast, order)
    with pytest.raises(RuleBroken) as error:
        hand_in_order(lesson=cast.lesson, student=cast.learner, based_on=1, by=cast.student)
    assert error.value.code == code
    assert not OwnOrder.objects.get().is_handed_in


def test_nothing_kept_is_nothing_to_hand_in(cast):
    with pytest.raises(RuleBroken, match="No step has a time yet"):
        hand_in_order(lesson=cast.lesson, student=cast.learner, based_on=0, by=cast.student)


def test_only_what_was_seen_is_handed_in(cast):
    kept(cast)
    kept(cast, times("09:25", "09:45"), based_on=1)
    with pytest.raises(RuleBroken, match="another page"):
        hand_in_order(lesson=cast.lesson, student=cast.learner, based_on=1, by=cast.student)


def test_opened_again_the_learner_writes_on_and_what_was_handed_in_is_kept(cast):
    first = handed_in(cast)
    row = opened(cast)
    assert (row.number, row.state, row.opened_by, row.opened_why) == (
        2,
        "draft",
        cast.lecturer,
        "The lesson was moved.",
    )
    kept(cast, times("09:30", "09:50"), based_on=row.saved)
    first.refresh_from_db()
    assert first.is_handed_in
    assert read_order(first.lines) == GOOD


def test_a_page_from_before_it_was_opened_again_writes_over_nothing(cast):
    handed_in(cast)
    opened(cast)
    with pytest.raises(RuleBroken, match="another page"):
        kept(cast, times("09:30", "09:50"), based_on=1)


@pytest.mark.parametrize("why", ["", "  "])
def test_without_a_reason_nothing_is_opened(cast, why):
    handed_in(cast)
    with pytest.raises(RuleBroken) as error:
        opened(cast, why)
    assert error.value.facts["field"] == "why"


def test_what_is_not_handed_in_is_open_already(cast):
    kept(cast)
    with pytest.raises(RuleBroken, match="open already"):
        opened(cast)


def test_opening_sent_twice_is_done_once(cast):
    handed_in(cast)
    key = uuid4()
    assert opened(cast, key=key) == opened(cast, key=key)


def test_after_the_day_of_the_lesson_nothing_is_written(cast):
    cast.lesson.on = date(2027, 2, 15)
    cast.lesson.save()
    with pytest.raises(RuleBroken, match="day of this lesson is over"):
        kept(cast)


def test_a_cancelled_lesson_takes_no_order(cast):
    cast.lesson.state = "cancelled"
    cast.lesson.save()
    with pytest.raises(RuleBroken, match="cancelled"):
        kept(cast)


def test_a_page_opened_before_the_lesson_was_cancelled_or_moved_is_judged_by_the_lesson_as_it_is(cast):
    kept(cast)
    Lesson.objects.filter(pk=cast.lesson.pk).update(state="cancelled")
    with pytest.raises(RuleBroken, match="cancelled"):
        kept(cast, based_on=1)
    with pytest.raises(RuleBroken, match="cancelled"):
        hand_in_order(lesson=cast.lesson, student=cast.learner, based_on=1, by=cast.student)
    Lesson.objects.filter(pk=cast.lesson.pk).update(state="planned", on=date(2027, 2, 15))
    with pytest.raises(RuleBroken, match="day of this lesson is over"):
        kept(cast, based_on=1)


def test_whether_they_are_assessed_is_said_once_a_lesson_and_may_be_changed(cast):
    say_whether_assessed(lesson=cast.lesson, assessed=True, by=cast.lecturer)
    say_whether_assessed(lesson=cast.lesson, assessed=False, by=cast.cover)
    setting = OwnOrderSetting.objects.get()
    assert (setting.own_order_assessed, setting.by) == (False, cast.cover)


def test_a_hidden_plan_is_refused_in_words():
    demand_plan_open(hidden=False)
    with pytest.raises(RuleBroken, match="once you have handed yours in"):
        demand_plan_open(hidden=True)


@pytest.mark.parametrize(
    "wrong",
    [
        {"state": "handed_in"},
        {"number": 2},
        {"opened_why": "No number."},
        {"handed_in_at": "2027-02-16T10:00Z"},
    ],
)
def test_an_impossible_order_is_refused_by_the_tables(cast, wrong):
    row = kept(cast, WrittenOrder())
    with pytest.raises(IntegrityError), transaction.atomic():
        OwnOrder.objects.filter(pk=row.pk).update(**wrong)


def test_two_drafts_of_one_learner_are_refused_by_the_tables(cast):
    row = handed_in(cast)
    opened(cast)
    with pytest.raises(IntegrityError), transaction.atomic():
        OwnOrder.objects.filter(pk=row.pk).update(state="draft", handed_in_at=None)
