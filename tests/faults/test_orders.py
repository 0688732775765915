"""A week is accepted while its order is sent or cancelled, in real processes and the same instant.

Whatever comes first: nothing is added to an order that was sent, and what each person ordered
stands once. ``KITCHEN_TRIES`` says how many tries, as for ``tests.faults.test_rivals``.
"""

import pytest
from django.db import connection
from django.db.models import Sum

from curriculum.foods.models import Food, Pack, Supplier
from kitchen.stores.orders.models import Order, WeekPlan
from tests.builders.cast import TERM, build_cast
from tests.faults.order_deeds import day_of, order_of_try
from tests.faults.workshop import TRIES, race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]
EVERY_DAY = [1, 2, 3, 4, 5, 6, 7]


@pytest.fixture
def drafts():
    """One draft with one pack for the day of each try."""
    cast = build_cast()
    supplier = Supplier.objects.create(
        code="faulty", name="Faulty", lead_days=1, cut_off="12:00", delivery_weekdays=EVERY_DAY
    )
    food = Food.objects.get(code="butter")
    pack = Pack.objects.create(food=food, supplier=supplier, milligrams=10**6, pence=800, from_on=TERM)
    plan = WeekPlan.objects.create(
        monday=TERM, number=0, inputs={}, inputs_hash="", answer={}, by=cast.stores
    )
    for number in range(TRIES):
        order = Order.objects.create(
            supplier=supplier, code=f"TRY{number:05}", for_on=day_of(number), plan=plan, by=cast.stores
        )
        order.lines.create(pack=pack, count=1, proposed=1, pence_a_pack=800)


def packs(**which):
    return Order.objects.filter(**which).aggregate(packs=Sum("lines__count"))["packs"]


def wrong(told, number):
    """What went wrong in one try: a sent order was added to, or a pack is there twice or not at all."""
    accepted, *others = (answers[number] for answers in told)
    first = order_of_try(number)
    found = []
    for answer in others:
        if answer.startswith("sent-") and packs(pk=first.pk) != int(answer.removeprefix("sent-")):
            found.append("added to what was sent")
    if accepted != "accepted" or packs(for_on=day_of(number)) != 2:
        found.append(f"{packs(for_on=day_of(number))} packs, {accepted}")
    later = Order.objects.filter(for_on=day_of(number)).exclude(pk=first.pk)
    if later and first.state == "sent" and later.get().supplements_id != first.pk:
        found.append("no supplementary order")
    return found


@pytest.mark.usefixtures("drafts")
@pytest.mark.parametrize(
    "deeds",
    [
        ("order_accept", "order_send"),
        ("order_accept", "order_cancel"),
        ("order_accept", "order_send", "order_cancel"),
    ],
)
def test_whatever_comes_first_nothing_is_added_to_what_was_sent_and_nothing_is_ordered_twice(deeds):
    told = race(deeds, TRIES, meet=True)
    assert [number for number in range(TRIES) if wrong(told, number)] == []


@pytest.mark.usefixtures("drafts")
def test_two_people_who_accept_the_same_page_order_once():
    told = race(("order_accept", "order_accept"), TRIES, meet=True)
    for number in range(TRIES):
        assert sorted(answers[number] for answers in told) == ["accepted", "week_accepted"]
        assert packs(for_on=day_of(number)) == 2


#: What each may be told of the same draft, and how many packs are on it then.
ON_ONE_DRAFT = {
    ("order_send_own", "order_send_own"): {("not_a_draft", "sent-1", 1), ("sent-1", "not_a_draft", 1)},
    ("order_send_own", "order_change"): {("sent-1", "not_a_draft", 1), ("sent-2", "changed", 2)},
    ("order_send_own", "order_cancel"): {("sent-1", "cancelled", 1), ("not_a_draft", "cancelled", 1)},
}


def told_of_one_draft(deeds, careless=False):
    """All answers that were given, each with the packs that are on the order in the end."""
    told = race(deeds, TRIES, meet=True, careless=careless)
    return {(*(each[number] for each in told), packs(pk=order_of_try(number).pk)) for number in range(TRIES)}


@pytest.mark.usefixtures("drafts")
@pytest.mark.parametrize("deeds", ON_ONE_DRAFT)
def test_a_draft_is_sent_once_and_what_was_sent_is_what_stands_on_it(deeds):
    assert told_of_one_draft(deeds) <= ON_ONE_DRAFT[deeds]


@pytest.mark.usefixtures("drafts")
@pytest.mark.parametrize("deeds", list(ON_ONE_DRAFT)[:2])
def test_hands_that_lock_nothing_send_twice_or_change_what_was_sent(deeds):
    assert not told_of_one_draft(deeds, careless=True) <= ON_ONE_DRAFT[deeds]


@pytest.mark.usefixtures("drafts")
def test_planted_a_line_written_to_a_sent_order_is_seen():
    told = race(("order_accept", "order_send"), 1, meet=True)
    assert wrong(told, 0) == []
    with connection.cursor() as cursor:
        cursor.execute("UPDATE kitchen_orderline SET count = count + 1")
    assert wrong(told, 0)
