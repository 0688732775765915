"""What there is to mark on one sheet."""

from assessments.marking.slots import slots
from assessments.schemes.card import Targets
from tests.builders.schemes import QUICHE, college_scheme, techniques


def places(found):
    return [slot.place for slot in found]


def test_one_hundred_points_asks_for_each_technique_and_each_measure():
    found = slots(college_scheme("hundred_points"), techniques(4), QUICHE)
    assert places(found) == [
        "organisation",
        "hygiene",
        "technique.t1",
        "technique.t2",
        "technique.t3",
        "technique.t4",
        "appearance",
        "texture",
        "flavour",
        "portion_weight",
        "food_temperature",
        "timing",
    ]
    assert {slot.place: slot.control for slot in found}["texture"] == "ruler"
    assert {slot.place: slot.worth for slot in found}["technique.t1"] == "7.5 points"


def test_a_dish_with_a_core_asks_for_the_reading():
    with_core = Targets(140_000, 8, 450, 500, core_decicelsius=750, core_seconds=30)
    core = slots(college_scheme("hundred_points"), techniques(4), with_core)[-1]
    assert (core.place, core.control) == ("core_not_reached", "core")
    assert core.asks == "The dish asks for 75 °C in the middle for 30 seconds."


def test_what_the_dish_does_not_state_is_not_asked_for():
    found = places(slots(college_scheme("hundred_points"), techniques(4), Targets()))
    assert "food_temperature" not in found and "portion_weight" not in found


def test_only_the_first_of_three_judges_measures():
    scheme = college_scheme("judges_and_measures")
    assert len(slots(scheme, (), QUICHE, judge=1)) == 7
    assert places(slots(scheme, (), QUICHE, judge=2)) == ["process", "presentation", "taste"]


def test_a_critical_line_can_stop_the_sitting_and_need_not():
    found = slots(college_scheme("competence"), techniques(3), QUICHE)
    stops = [slot for slot in found if slot.control == "stop"]
    assert places(stops) == ["critical_stop.food_safety", "critical_stop.knives_machines"]
    assert not any(slot.needed for slot in stops)
    assert all(slot.needed for slot in found if slot.control != "stop")
