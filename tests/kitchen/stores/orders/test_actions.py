"""A week is accepted once, orders are changed until they are sent, and what was sent stays as it was."""

from datetime import date, timedelta
from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, Pack, Supplier
from curriculum.people.models import College
from kitchen.stores.models import RequisitionLine
from kitchen.stores.orders import queries
from kitchen.stores.orders.actions import (
    accept_week,
    cancel_order,
    change_order,
    note_delivered,
    note_sent,
    set_keeping,
)
from kitchen.stores.orders.closed.actions import close_day
from kitchen.stores.orders.entries import KeepingEntry, LineEntry, OrderEntry, WeekEntry
from kitchen.stores.orders.models import Keeping, Order, WeekPlan
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from tests.builders.book import a_person
from tests.builders.stores import quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
MONDAY = date(2027, 2, 15)


@pytest.fixture
def stage():
    """Seven pairs make quiches on Tuesday; it is the Tuesday before, and their requisition is approved."""
    College.objects.update(shown_today=MONDAY - timedelta(6))
    found = quiche_stage()
    Supplier.objects.update(least_order_pence=0)
    row = submit_requisition(lesson=found.lesson, by=found.lecturer)
    approve_requisition(requisition=row, by=found.stores)
    return found


def shown():
    return queries.week_page(MONDAY)


def entry_of(page, **changes):
    """What a person accepts who changes nothing."""
    by_day = {}
    for buy in page.proposal.answer.buys:
        by_day.setdefault(buy.drop.on, []).append(LineEntry(buy.pack.key, buy.count, buy.count))
    orders = tuple(OrderEntry(on, tuple(lines)) for on, lines in sorted(by_day.items()))
    said = {"orders": orders, "number": page.number, "inputs_hash": page.inputs_hash}
    return WeekEntry(MONDAY, **said | changes)


def accepted(stage, **more):
    return accept_week(entry=entry_of(shown()), by=stage.stores, **more)


def refusal(do, **said):
    with pytest.raises(RuleBroken) as refused:
        do(**said)
    return refused.value


def test_what_is_accepted_covers_the_week_and_nothing_more_is_proposed(stage):
    plan = accepted(stage)
    page = shown()
    assert plan.number == 1 and plan.inputs["lines"] and not page.drops and not page.changed
    assert all(not each.missing_milligrams for each in page.basis.served if each.ordered_milligrams)
    assert {order.state for order in page.orders} == {"draft"}
    assert all(line.pence_a_pack == line.pack.pence for order in page.orders for line in order.lines.all())


def test_one_form_is_accepted_once(stage):
    key, entry = uuid4(), entry_of(shown())
    plans = [accept_week(entry=entry, by=stage.stores, key=key) for _ in range(2)]
    assert plans[0] == plans[1] and WeekPlan.objects.count() == 1


def test_the_second_of_two_people_is_told_who_was_first(stage):
    entry = entry_of(shown())
    accept_week(entry=entry, by=stage.stores)
    orders = Order.objects.count()
    refused = refusal(accept_week, entry=entry, by=a_person("jo", "stores"))
    assert refused.code == "week_accepted" and "Hana accepted orders" in refused.message
    assert (WeekPlan.objects.count(), Order.objects.count()) == (1, orders)


def test_needs_that_changed_while_the_page_was_open_are_shown_first(stage):
    entry = entry_of(shown())
    line = RequisitionLine.objects.filter(food__code="unsalted_butter").order_by("-milligrams").first()
    RequisitionLine.objects.filter(pk=line.pk).update(milligrams=line.milligrams + 10**6)
    assert refusal(accept_week, entry=entry, by=stage.stores).code == "week_changed"
    assert not Order.objects.exists()


def test_nothing_at_all_is_not_accepted(stage):
    assert refusal(accept_week, entry=entry_of(shown(), orders=()), by=stage.stores).code == "nothing_ordered"


def test_a_day_on_which_nobody_comes_is_refused(stage):
    page = shown()
    pack = page.proposal.answer.buys[0].pack.key
    sunday = OrderEntry(MONDAY - timedelta(1), (LineEntry(pack, 1),))
    refused = refusal(accept_week, entry=entry_of(page, orders=(sunday,)), by=stage.stores)
    assert refused.code == "no_such_delivery" and not WeekPlan.objects.exists()


def more_butter(kilograms=3):
    line = RequisitionLine.objects.filter(food__code="unsalted_butter").order_by("-milligrams").first()
    more = line.milligrams + kilograms * 10**6
    RequisitionLine.objects.filter(pk=line.pk).update(milligrams=more)
    return line


def test_more_that_is_needed_after_sending_is_a_supplementary_order_and_the_page_says_what_changed(stage):
    accepted(stage)
    sent = [note_sent(order=order, by=stage.stores, agreed="Rang them.") for order in Order.objects.all()]
    before = {order.code: [(line.pack_id, line.count) for line in order.lines.all()] for order in sent}
    line = more_butter()
    page = shown()
    assert [(row.food, row.before, row.now) for row in page.changed] == [
        ("Unsalted butter", "1,440 g", f"{1440 + 3000:,} g")
    ]
    assert page.drops and {each.food for drop in page.drops for each in drop.lines} == {"Unsalted butter"}
    accepted(stage)
    added = Order.objects.get(state="draft")
    assert added.supplements in sent and {row.pack.food for row in added.lines.all()} == {line.food}
    for order in sent:
        assert [(row.pack_id, row.count) for row in order.lines.all()] == before[order.code]


def test_more_that_is_needed_before_sending_joins_the_draft(stage):
    accepted(stage)
    orders = Order.objects.count()
    more_butter()
    accepted(stage)
    assert Order.objects.count() == orders and not shown().drops


def test_a_draft_is_changed_and_one_that_was_sent_is_not(stage):
    accepted(stage)
    order = Order.objects.first()
    line = order.lines.first()
    change_order(order=order, lines=[LineEntry(line.pack_id, 7)], by=stage.stores)
    assert order.lines.get(pk=line.pk).count == 7
    change_order(order=order, lines=[LineEntry(line.pack_id, 0)], by=stage.stores)
    assert not order.lines.filter(pk=line.pk).exists()
    change_order(order=order, lines=[LineEntry(line.pack_id, 2)], by=stage.stores)
    note_sent(order=order, by=stage.stores, agreed="Rang them.")
    refused = refusal(change_order, order=order, lines=[LineEntry(line.pack_id, 9)], by=stage.stores)
    assert refused.code == "not_a_draft" and order.lines.get(pack=line.pack_id).count == 2
    assert refusal(note_sent, order=order, by=stage.stores).code == "not_a_draft"


def test_a_pack_of_another_supplier_does_not_join_an_order(stage):
    accepted(stage)
    order = Order.objects.first()
    other = Pack.objects.exclude(supplier=order.supplier).first()
    refused = refusal(change_order, order=order, lines=[LineEntry(other.pk, 1)], by=stage.stores)
    assert refused.code == "other_supplier"


def a_large_order(stage):
    accepted(stage)
    order = Order.objects.first()
    change_order(order=order, lines=[LineEntry(order.lines.first().pack_id, 500)], by=stage.stores)
    return order


def test_sending_says_who_and_when(stage):
    order = note_sent(order=a_large_order(stage), by=stage.stores)
    assert (order.state, order.sent_by, order.sent_at is not None) == ("sent", stage.stores, True)


def test_an_order_that_is_late_is_sent_only_with_what_was_agreed(stage):
    order = a_large_order(stage)
    College.objects.update(shown_today=order.for_on)
    refused = refusal(note_sent, order=order, by=stage.stores)
    assert refused.code == "too_late" and refused.facts["field"] == "agreed"
    assert note_sent(order=order, by=stage.stores, agreed="They bring it at noon.").agreed


def test_an_order_below_the_least_is_not_sent_and_an_empty_one_neither(stage):
    order = a_large_order(stage)
    Supplier.objects.update(least_order_pence=4000)
    order.lines.exclude(pk=order.lines.first().pk).delete()
    order.lines.update(count=1, pence_a_pack=1)
    assert refusal(note_sent, order=order, by=stage.stores).code == "below_least_order"
    order.lines.all().delete()
    assert refusal(note_sent, order=order, by=stage.stores).code == "empty_order"


def test_a_cancelled_order_is_counted_no_more_and_a_delivered_one_is_not_cancelled(stage):
    order = a_large_order(stage)
    cancel_order(order=order, why="Written twice.", by=stage.stores)
    assert shown().drops and order not in shown().orders
    assert refusal(cancel_order, order=order, why="Again.", by=stage.stores).code == "order_ended"
    assert refusal(note_delivered, order=order, by=stage.stores).code == "not_sent"


def test_what_was_sent_is_delivered_once(stage):
    order = note_sent(order=a_large_order(stage), by=stage.stores)
    assert note_delivered(order=order, by=stage.stores).state == "delivered"
    assert refusal(note_delivered, order=order, by=stage.stores).code == "not_sent"


def test_a_par_level_is_one_more_need_of_the_week(stage):
    food = Food.objects.get(code="caster_sugar")
    set_keeping(food=food, entry=KeepingEntry(5 * 10**6, opened_days=9, source="The bag."), by=stage.stores)
    set_keeping(food=food, entry=KeepingEntry(6 * 10**6), by=stage.stores)
    assert Keeping.objects.get().par_milligrams == 6 * 10**6
    par = [each for each in shown().basis.served if each.need.lesson == ""]
    assert [(each.need.food, each.missing_milligrams) for each in par] == [("caster_sugar", 6 * 10**6)]


def test_packs_that_fill_up_are_kept_with_their_weeks_and_left_out_first(stage):
    page = shown()
    buy = page.proposal.answer.buys[0]
    week = MONDAY + timedelta(14)
    line = LineEntry(buy.pack.key, 5, 6, 3, week, week + timedelta(7))
    entry = entry_of(page, orders=(OrderEntry(buy.drop.on, (line,)),))
    accept_week(entry=entry, by=stage.stores)
    kept = Order.objects.get().lines.get()
    assert (kept.count, kept.fill_packs, kept.fills_from) == (5, 2, week)
    change_order(order=kept.order, lines=[LineEntry(buy.pack.key, 4)], by=stage.stores)
    kept.refresh_from_db()
    assert (kept.count, kept.fill_packs) == (4, 1)


def test_nothing_is_ordered_for_a_closed_day(stage):
    page = shown()
    close_day(on=page.proposal.answer.drops[0].on, words="Stock count", by=stage.stores)
    refused = refusal(accept_week, entry=entry_of(page), by=stage.stores)
    assert refused.code == "no_such_delivery" and "(Stock count)" in refused.message
    assert page.proposal.answer.drops[0].on not in {drop.on for drop in shown().proposal.ask.drops}
