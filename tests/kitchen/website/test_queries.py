"""How far a lesson has come, counted as the pages of the stores count it."""

import pytest

from kitchen.stores.models import KitLine
from kitchen.website.queries import kit_facts
from tests.builders.stores import kits_made, quiche_stage

pytestmark = pytest.mark.django_db


def test_water_from_the_tap_is_no_line_to_weigh():
    stage = quiche_stage(benches=("R01",) * 2, ahead=())
    lines = KitLine.objects.filter(kit__kit_set=kits_made(stage))
    from_tap = lines.filter(stock_milligrams=0).count()
    assert from_tap > 0
    assert kit_facts([stage.lesson])[stage.lesson.pk]["lines"] == lines.count() - from_tap
