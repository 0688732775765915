"""What is delivered with a date before its lessons is taken in only when somebody says so."""

from dataclasses import replace
from datetime import timedelta

import pytest

from curriculum.errors import RuleBroken
from kitchen.lessons.actions import cancel_lesson
from kitchen.stores.deliveries.actions import accept_substitute
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.deliveries.reach.queries import uses_of
from kitchen.stores.deliveries.substitutes.queries import decide_page
from kitchen.stores.models import Lot
from kitchen.stores.orders.actions import set_keeping
from kitchen.stores.orders.entries import KeepingEntry
from kitchen.stores.orders.models import WeekPlan
from tests.builders.deliveries import a_delivery, a_pack, an_order, as_ordered, checked
from tests.builders.stores import QUICHE_DAY, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
CAME = QUICHE_DAY - timedelta(days=4)


@pytest.fixture
def stage():
    return quiche_stage(benches=("R01",), ahead=())


@pytest.fixture
def salt(stage):
    """A line of an order that has come four days before the quiche: fine salt, which keeps without cold."""
    order = an_order(a_pack("fine_salt", 1000), by=stage.stores)
    return a_delivery(order, by=stage.stores, on=CAME), order.lines.get()


def early(line, days=2):
    return as_ordered(line, date_kind="use_by", dated_on=CAME + timedelta(days=days))


def test_it_is_refused_with_the_lesson_and_the_missing_days_until_somebody_says_why(stage, salt):
    delivery, line = salt
    with pytest.raises(RuleBroken) as refused:
        checked(delivery, early(line), stage.stores, on=CAME)
    assert (refused.value.code, refused.value.facts["field"]) == ("short_dated", "short_date_why")
    assert f"does not reach {stage.lesson.title}" in refused.value.message
    assert "(2 days)" in refused.value.message and not DeliveryLine.objects.exists()
    made = checked(delivery, replace(early(line), short_date_why="Used ahead."), stage.stores, on=CAME)
    assert made.lot in Lot.objects.all() and "does not reach" in made.short_date
    assert (made.why, made.short_date_why) == ("", "Used ahead.")


def test_a_date_on_the_day_of_the_lesson_reaches_it(stage, salt):
    delivery, line = salt
    assert checked(delivery, early(line, days=4), stage.stores, on=CAME).short_date == ""


def test_what_is_rejected_is_asked_nothing(stage, salt):
    delivery, line = salt
    made = checked(delivery, replace(early(line), taken=False, why="Torn."), stage.stores, on=CAME)
    assert (made.verdict, made.why) == ("rejected", "Torn.")


def test_without_a_plan_the_lessons_of_seven_days_count_and_with_one_those_of_its_week(stage, salt):
    delivery, line = salt
    food = line.pack.food_id
    assert [use.on for use in uses_of(delivery, [food], CAME)] == [QUICHE_DAY]
    assert uses_of(delivery, [food], QUICHE_DAY - timedelta(days=8)) == ()
    monday = QUICHE_DAY - timedelta(days=QUICHE_DAY.weekday())
    plan = {"number": 1, "inputs": {}, "inputs_hash": "x", "answer": {}, "by": stage.stores}
    delivery.order.plan = WeekPlan.objects.create(monday=monday, **plan)
    assert len(uses_of(delivery, [food], QUICHE_DAY - timedelta(days=8))) == 1
    delivery.order.plan = WeekPlan.objects.create(monday=monday - timedelta(days=7), **plan)
    assert uses_of(delivery, [food], CAME) == ()


def test_a_cancelled_lesson_and_one_that_was_needs_nothing(stage, salt):
    delivery, line = salt
    assert uses_of(delivery, [line.pack.food_id], QUICHE_DAY + timedelta(days=1)) == ()
    cancel_lesson(lesson=stage.lesson, why="Burst pipe", by=stage.lecturer)
    assert uses_of(delivery, [line.pack.food_id], CAME) == ()


def test_a_substitute_is_asked_about_the_lessons_of_what_was_ordered(stage, salt):
    """Sea salt comes in place of the fine salt that the quiche cooks with: no lesson cooks with sea salt."""
    delivery, line = salt
    other = a_pack("sea_salt", 1000)
    entry = replace(early(line), food="sea_salt", pack=other.pk, substitute=True, why="Sea salt came.")
    with pytest.raises(RuleBroken, match=f"does not reach {stage.lesson.title}") as refused:
        checked(delivery, entry, stage.stores, on=CAME)
    assert refused.value.code == "short_dated"


def test_food_without_a_date_is_held_against_the_days_it_is_kept(stage, salt):
    delivery, line = salt
    entry = KeepingEntry(delivered_days=2, source="Label of the maker")
    set_keeping(food=line.pack.food, entry=entry, by=stage.stores)
    with pytest.raises(RuleBroken, match="Kept until"):
        checked(delivery, as_ordered(line), stage.stores, on=CAME)
    set_keeping(food=line.pack.food, entry=replace(entry, delivered_days=4), by=stage.stores)
    assert checked(delivery, as_ordered(line), stage.stores, on=CAME).short_date == ""


class TestAcceptedLater:
    """A substitute that waited is accepted for lessons that its date reaches, and no other."""

    @pytest.fixture
    def waits(self, stage, salt):
        delivery, line = salt
        said = {"contains": ("celery",), "short_date_why": "Nothing else came."}
        return checked(delivery, replace(early(line), **said), stage.stores, on=CAME)

    def test_a_lesson_after_its_use_by_date_is_refused(self, stage, waits):
        with pytest.raises(RuleBroken, match="Take its tick away") as refused:
            accept_substitute(line=waits, lessons=[stage.lesson], by=stage.stores)
        assert (refused.value.code, refused.value.facts["field"]) == ("past_its_date", "lessons")
        waits.refresh_from_db()
        assert waits.verdict == "waiting"
        assert accept_substitute(line=waits, lessons=[], by=stage.stores).verdict == "taken"

    def test_the_page_offers_no_tick_for_it_and_says_by_how_many_days(self, stage, waits):
        page = decide_page(waits, CAME)
        (row,) = [each for each in page.touched if each.lesson == stage.lesson]
        assert not row.may_go and "2 days before this lesson" in row.missing
        assert stage.lesson.code not in page.choices

    def test_a_best_before_date_is_said_and_left_to_the_person(self, stage, salt):
        delivery, line = salt
        said = {"contains": ("celery",), "short_date_why": "Nothing else came.", "date_kind": "best_before"}
        line = checked(delivery, replace(early(line), **said), stage.stores, on=CAME)
        assert stage.lesson.code in decide_page(line, CAME).choices
        made = accept_substitute(line=line, lessons=[stage.lesson], by=stage.stores)
        assert made.lot.accepted_for.get().lesson == stage.lesson
