"""The first page of the stores: what ends soon, and the lesson that could use it."""

from datetime import timedelta

import pytest
from django.utils import timezone

from kitchen.stores.lots.actions import hold_lot
from kitchen.stores.orders.models import Order
from kitchen.website.days.stores import stores_day
from tests.builders.book import a_book, a_person
from tests.builders.deliveries import a_pack, an_order
from tests.builders.stores import COOKED, QUICHE_DAY, a_lot, quiche_stage

pytestmark = pytest.mark.django_db
TODAY = QUICHE_DAY - timedelta(1)


@pytest.fixture
def stage():
    """A quiche lesson tomorrow."""
    a_book(*COOKED)
    return quiche_stage(benches=("R01",))


def ends(code, days, kind="use_by", food="unsalted_butter"):
    return a_lot(food, code, date_kind=kind, dated_on=TODAY + timedelta(days))


def dates():
    """The docket of the dates on the first page."""
    page = stores_day(a_person("hana", "stores"), TODAY)
    return next(section for section in page.sections if section.heading == "Dates").lines


def test_each_lot_says_which_lesson_could_use_it_and_the_last_line_leads_to_all(stage):
    ends("SOON", 2), ends("COFFEE", 3, food="instant_coffee")
    soon, coffee, every = dates()
    assert (soon.figure, soon.state_words) == ("17 Feb", "2 days left")
    assert soon.detail.startswith(f"Could go into {stage.lesson.title}, ")
    assert coffee.detail == "No lesson planned takes it by then." and every.words == "Expiring soon"


def test_past_use_by_is_to_be_taken_out_and_past_best_before_to_be_looked_at(stage):
    ends("GONE", -2), ends("STALE", -1, "best_before")
    gone, stale, _ = dates()
    assert (gone.detail, gone.state, gone.hand) == ("Past its last day: take it out.", "late", True)
    assert stale.detail.startswith("Past its best-before date") and not stale.hand


def test_a_held_lot_stands_in_its_own_docket_and_nothing_ending_leaves_the_dates_empty(stage):
    hold_lot(lot=ends("HELD", 1), why="Smells.", by=stage.stores)
    assert dates() == []


def orders():
    """The docket of orders and deliveries on the first page."""
    page = stores_day(a_person("hana", "stores"), TODAY)
    return next(section for section in page.sections if section.heading == "Orders and deliveries").lines


def test_an_order_is_to_be_sent_then_expected_then_overdue_and_the_week_is_a_tap_away():
    a_book(*COOKED)
    order, soon = an_order(a_pack("unsalted_butter")), TODAY + timedelta(2)
    Order.objects.update(for_on=soon, state=Order.State.DRAFT, sent_at=None, sent_by=None)
    draft, week = orders()
    assert draft.words.startswith(("Send order", "Ring")) and order.code in draft.words
    assert week.words.startswith("The week of ")
    Order.objects.update(state=Order.State.SENT, sent_at=timezone.now(), sent_by=order.by)
    assert (orders()[0].state_words, orders()[0].hand) == ("Expected", False)
    Order.objects.update(for_on=TODAY - timedelta(1))
    assert (orders()[0].state_words, orders()[0].hand) == ("Nobody has checked it", True)
    Order.objects.update(for_on=TODAY + timedelta(8))
    assert len(orders()) == 1
