"""What can be fixed: places, parts, ovens, and what a choice means."""

from kitchen.timeplan.class_data import ShownData
from kitchen.timeplan.pins.choices import ALL, choices_of
from kitchen.timeplan.pins.data import OVEN, START, PinData
from tests.builders.timeplan_lessons import class_of


def choices(waves=2):
    return choices_of(class_of("R01", "juniper", 4, 210, shown=(ShownData(4, 6),)), waves)


def test_places_are_the_class_its_waves_and_its_benches():
    assert [value for value, _ in choices().places] == [ALL, "wave-1", "wave-2", "1", "2", "3", "4"]
    assert [value for value, _ in choices(1).places] == [ALL, "1", "2", "3", "4"]
    assert choices().benches_at("wave-2") == ("3", "4")
    assert choices().benches_at(ALL) == ("1", "2", "3", "4")


def test_parts_say_what_they_are_and_bakes_are_those_in_an_oven():
    parts, bakes = dict(choices().parts), dict(choices().bakes)
    assert parts["5-0"].endswith(": hands, 4 min")
    assert parts["5-1"].endswith(": in the oven, 14 min")
    assert set(bakes) == {"5-1", "6-1", "8-1"}
    assert dict(choices().starts)["show-4"] == "Demonstration of step 4"


def test_one_is_fixed_for_each_bench_of_a_place_and_one_for_a_demonstration():
    oven = choices().pins(OVEN, "wave-1", "5-1", oven="x")
    assert oven == tuple(PinData(0, OVEN, bench, 5, 1, oven="x") for bench in ("1", "2"))
    assert choices().pins(START, "", "show-4", minute=20) == (PinData(0, START, "", 4, minute=20),)


def test_a_refusal_names_the_bench_that_does_not_do_the_part():
    assert choices().refusal(PinData(0, START, "1", 99, minute=60)) == (
        "Bench 1 does not do this part in this lesson."
    )
    assert choices().refusal(PinData(0, START, "1", 3, minute=60)) == ""
