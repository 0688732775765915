"""What is typed wrong stays in the form and is said at its field."""

import uuid

import pytest

from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstrations.forms import SlotForm, StagesForm
from kitchen.timeplan.demonstrations.queries import shows_of
from tests.builders.cast import build_cast, shortbread

pytestmark = pytest.mark.django_db


def stages(**changes):
    said = {"minutes": "30", "key": str(uuid.uuid4()), "way_1": "live", "minutes_1": "10"}
    return StagesForm(shortbread(), None, said | {"way_2": "not_shown", "minutes_2": ""} | changes)


@pytest.mark.parametrize("words", ["a while", "0", "-5", "999", "12.5", ""])
def test_minutes_that_are_none_are_said_at_their_field(words):
    form = SlotForm(shows_of(build_cast().lesson), None, {"minutes": words})
    assert not form.is_valid()
    assert "minutes" in form.errors


def test_a_technique_that_is_not_the_dish_s_is_refused():
    form = SlotForm(shows_of(build_cast().lesson), None, {"minutes": "30", "technique": ["juggling"]})
    assert "technique" in form.errors


def test_it_begins_with_what_the_class_works_itself():
    form = SlotForm(shows_of(build_cast().lesson), None)
    assert form.asked() == (None, ("rubbing_in",))
    assert form["minutes"].value() == 45


def test_stages_are_read_in_the_order_of_the_method():
    form = stages(way_2="stage_tray", minutes_2="4")
    assert form.is_valid(), form.errors
    assert form.stages() == (Shown(1, "live", 10), Shown(2, "stage_tray", 4))


def test_a_shown_stage_without_minutes_is_said_at_its_field():
    form = stages(way_2="stage_tray")
    assert not form.is_valid()
    assert list(form.errors) == ["minutes_2"]


def test_a_stage_that_is_not_shown_needs_no_minutes():
    assert stages().is_valid()
