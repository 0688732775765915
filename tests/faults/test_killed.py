"""The stores killed in the middle: what was begun is whole or not there, and sent again it is done once.

A day is every kind of deed of the stores once. Each is killed before another one of its statements
(so also after a commit, before anybody is told); few days here, as many as ``KITCHEN_TRIES`` says when
somebody asks. Then everything is sent again with its own keys.
"""

import random
import time

import pytest
from django.db.models import Sum

from kitchen.stores.models import KitLine, KitSet, Lot, Movement
from kitchen.website.ledger_checks import faults
from tests.builders.cast import build_cast
from tests.builders.deliveries import a_delivery
from tests.builders.stores_days import days_of_stores
from tests.faults.day_deeds import STEPS
from tests.faults.workshop import TRIES, Hands, race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]

DAYS = max(8, TRIES // 2)


@pytest.fixture
def cast():
    made = build_cast()
    days_of_stores(made, DAYS)
    a_delivery(by=made.stores)
    return made


def halves():
    """Kits of which a part has left: the kits of these lessons leave together or not at all."""
    asked = dict(KitLine.objects.exclude(kit__kind="supplementary").values_list("pk", "stock_milligrams"))
    moved = Movement.objects.filter(kind="issue", kit_line__in=asked).values_list("kit_line__kit__kit_set")
    left = dict(moved.order_by().annotate(sum=Sum("milligrams")))
    wanted = KitLine.objects.filter(pk__in=asked).values_list("kit__kit_set")
    whole = dict(wanted.order_by().annotate(sum=Sum("stock_milligrams")))
    issued = set(KitSet.objects.exclude(issued_at=None).values_list("pk", flat=True))
    return [key for key, sum_of in left.items() if -sum_of != whole[key]] + sorted(issued - set(left))


def day_of(number):
    """What the book says of one day: each movement of its kits and of its eggs, without keys."""
    of_kits = Movement.objects.filter(kit_line__kit__kit_set__lesson__code=f"DAY{number:05d}")
    of_eggs = Movement.objects.filter(lot__code=f"EGGS{number}")
    rows = (of_kits | of_eggs).order_by("pk").values_list("kind", "milligrams", "lot__food__code")
    return sorted(rows)


def test_days_killed_at_any_statement_are_whole_and_can_be_sent_again(cast):
    (told,) = race(["killed"], DAYS)
    assert list(told.values()).count("killed") >= DAYS // 2
    assert faults() == [] and halves() == []
    (again,) = race(["work"], DAYS * len(STEPS))
    assert len(again) == DAYS * len(STEPS)
    assert faults() == [] and halves() == []
    days = [day_of(number) for number in range(DAYS)]
    assert all(day == days[0] for day in days) and len(days[0]) == 10
    assert Lot.objects.get(code="FLOUR").on_hand_milligrams == 10**8 - DAYS * 170_000
    assert Lot.objects.filter(delivery_line__isnull=False).count() == DAYS


def test_without_transactions_the_same_kills_leave_halves(cast):
    (told,) = race(["torn"], 4)
    assert set(told.values()) == {"killed"}
    assert any("the ledger differs" in sentence for sentence in faults())


def test_hands_killed_at_random_instants_have_kept_what_they_said(cast):
    instants = random.Random(2027)
    acknowledged = {}
    for _ in range(max(2, TRIES // 50)):
        hands = Hands("work", 0, DAYS * len(STEPS))
        hands.wait_until_ready()
        hands.go()
        hands.read(most=1 + len(acknowledged))
        time.sleep(instants.uniform(0, 0.4))
        told = hands.kill()
        assert all(acknowledged.get(number, answer) == answer for number, answer in told.items())
        acknowledged |= told
        assert faults() == [] and halves() == []
    (again,) = race(["work"], DAYS * len(STEPS))
    assert again | acknowledged == again
    assert faults() == [] and halves() == []
