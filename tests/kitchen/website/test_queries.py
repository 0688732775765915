"""How far a lesson has come, counted as the pages of the stores count it."""

import pytest

from kitchen.stores.models import KitLine
from kitchen.stores.requisitions.actions import (
    approve_requisition,
    submit_requisition,
    withdraw_requisition,
)
from kitchen.website.queries import kit_facts, requisition_states
from tests.builders.stores import kits_made, quiche_stage

pytestmark = pytest.mark.django_db


def test_water_from_the_tap_is_no_line_to_weigh():
    stage = quiche_stage(benches=("R01",) * 2, ahead=())
    lines = KitLine.objects.filter(kit__kit_set=kits_made(stage))
    from_tap = lines.filter(stock_milligrams=0).count()
    assert from_tap > 0
    assert kit_facts([stage.lesson])[stage.lesson.pk]["lines"] == lines.count() - from_tap


def test_a_requisition_that_was_withdrawn_stands_no_more_and_the_one_before_does():
    stage = quiche_stage(benches=("R01",), ahead=())

    def asked():
        return submit_requisition(lesson=stage.lesson, by=stage.lecturer)

    withdraw_requisition(requisition=asked(), why="No.", by=stage.lecturer)
    assert requisition_states([stage.lesson]) == {}
    approve_requisition(requisition=asked(), by=stage.stores)
    withdraw_requisition(requisition=asked(), why="No.", by=stage.lecturer)
    assert requisition_states([stage.lesson]) == {stage.lesson.pk: "approved"}
