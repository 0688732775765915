"""What a label says of the clock and of the hands that weighed, as far as it is known."""

import pytest

from kitchen.stores.printing import kit_label
from kitchen.stores.queries import trays_of
from kitchen.stores.weighout.cards.queries import cards_of
from tests.builders.stores import college_lots, kits_made, quiche_stage
from tests.builders.weighout import all_weighed, weighed_at

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    made = quiche_stage(benches=("R01", "V2"), ahead=())
    college_lots()
    return made


def card(kit_set, label):
    trays = trays_of(kit_set)
    return cards_of(kit_set, trays)[next(tray.code for tray in trays if tray.label == label)]


def test_without_a_plan_a_tray_stays_in_the_fridge_until_the_lesson_begins(stage):
    found = card(kits_made(stage), "1")
    assert found.cold_until == "09:00 (start of the lesson, no plan)"
    assert (found.storage, found.bench, found.weighed, found.lid) == ("In the fridge", "", "", "")


def test_initials_stand_on_it_once_the_whole_tray_is_weighed_and_looked_at(stage):
    kit_set = kits_made(stage)
    weighed_at(kit_set, "fine_salt", stage.stores)
    assert card(kit_set, "1").weighed == ""
    all_weighed(kit_set, stage.stores, second=stage.lecturer)
    found = card(kit_set, "2")
    assert (found.weighed, found.second) == ("H", "M") and found.lid.endswith(", H")
    assert card(kit_set, "1").lid == ""


def test_a_label_lists_its_lines_in_the_order_in_which_the_method_uses_them(stage):
    kit_set = kits_made(stage)
    tray = next(tray for tray in trays_of(kit_set) if tray.label == "1")
    label = kit_label(tray, 1, 4, when="", where="", link="", card=card(kit_set, "1"))
    named = list(dict.fromkeys(line.component for line in label.lines))
    assert named == ["Shortcrust paste", "Leek and cheese filling", "Seal", "Savoury custard", "Dusting"]
    assert label.cold_until and label.storage == "In the fridge"
