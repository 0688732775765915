"""The requisition calls in stock only what may still be used on the day of the lesson."""

from datetime import timedelta

import pytest

from kitchen.stores.requisitions.queries import requisition_page
from tests.builders.stores import a_lot, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def butter_of(stage):
    return next(line for line in requisition_page(stage.lesson).lines if line.name == "Unsalted butter")


def test_a_lot_past_its_use_by_on_the_day_of_the_lesson_is_bought_again():
    stage = quiche_stage()
    a_lot("unsalted_butter", "LT-OLD", 9000, date_kind="use_by", dated_on=stage.lesson.on - timedelta(days=1))
    short = butter_of(stage)
    assert (short.in_stock, bool(short.packs), short.pence > 0) == ("0 g", True, True)
    a_lot("unsalted_butter", "LT-NEW", 9000, date_kind="use_by", dated_on=stage.lesson.on)
    covered = butter_of(stage)
    assert (covered.packs, covered.pence) == ("", 0)
