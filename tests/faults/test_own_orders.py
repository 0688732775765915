"""One learner's order of work on several devices at once: none writes over another unseen."""

import pytest

from kitchen.timeplan.own_order.models import OwnOrder
from tests.builders.cast import build_cast
from tests.faults.workshop import race

pytestmark = [pytest.mark.faults, pytest.mark.django_db(transaction=True)]

TIMES = 12


def test_what_three_devices_keep_at_once_is_kept_once_and_refused_twice():
    build_cast()
    told = race("order", count=TIMES)
    for number in range(TIMES):
        answers = sorted(each[number] for each in told)
        assert answers == ["kept", "kept_elsewhere", "kept_elsewhere"]
    assert OwnOrder.objects.get().saved == TIMES
