"""A sheet as its page shows it."""

from datetime import datetime
from types import SimpleNamespace

import pytest

from assessments.marking.entry import Entry
from assessments.marking.shown import parts_shown, sheet_shown, short_name, slot_shown
from assessments.marking.sittings import SheetData, SittingData
from tests.builders.schemes import QUICHE, college_scheme, techniques

START = datetime(2027, 2, 25, 9, 15).astimezone()
FAULT = SimpleNamespace(code="t1_1", seen="Soggy base", cause="Not dried")


def data(*entries, extra=0):
    sheet = SheetData("first", "Marek", 1, False, entries)
    return SittingData(college_scheme("hundred_points"), techniques(4), QUICHE, START, 165, extra, (sheet,))


def shown(*entries, now=None, wrong=("", "", ""), extra=0):
    return sheet_shown(data(*entries, extra=extra), "first", {"t1": [FAULT]}, {"t1": "Dry"}, now, wrong)


def entry(place, milli, number=1, **more):
    criterion, _, subject = place.partition(".")
    return Entry(criterion, subject, number, milli, at=START, by="Marek", **more)


def test_a_given_step_is_chosen_and_its_fault_ticked():
    slot = slot_shown(shown(entry("technique.t1", 1000, faults=("t1_1",))), "technique.t1")
    assert [choice.value for choice in slot.choices if choice.chosen] == [1]
    assert [(fault.seen, fault.ticked) for fault in slot.faults] == [("Soggy base", True)]
    assert (slot.cue, slot.given) == ("Dry", "1 of 3")


def test_plus_and_minus_start_from_the_target_and_then_from_the_figure():
    empty = slot_shown(shown(), "portion_weight")
    assert (empty.typed, empty.less, empty.more) == ("", "139", "141")
    given = slot_shown(shown(entry("portion_weight", 133_500)), "portion_weight")
    assert (given.typed, given.less, given.more) == ("133.5", "132.5", "134.5")


def test_the_bands_of_a_ruler_are_said_in_words():
    slot = slot_shown(shown(), "texture")
    assert slot.bands.startswith("0 to 3: not servable; 4 to 5: servable, with a fault")
    assert [choice.value for choice in slot.choices if choice.band_ends] == [3, 5, 7, 9]


def test_what_was_typed_stays_beside_its_error():
    slot = slot_shown(shown(wrong=("portion_weight", "a slice", "Write a figure.")), "portion_weight")
    assert (slot.typed, slot.error) == ("a slice", "Write a figure.")
    assert slot_shown(shown(wrong=("texture", "x", "y")), "portion_weight").error == ""


@pytest.mark.parametrize("clock, left, over", [((11, 46), "14 min", False), ((12, 5), "5 min", True)])
def test_the_time_left_is_the_candidates_own(clock, left, over):
    now = START.replace(hour=clock[0], minute=clock[1])
    sheet = shown(now=now)
    assert (sheet.due, sheet.left, sheet.over) == ("12:00", left, over)
    assert shown(now=now, extra=250).due == "12:41:15"
    assert shown(now=now.replace(year=2026)).left == ""


def test_two_devices_that_did_not_see_each_other_are_shown():
    sheet = shown(entry("texture", 5000), entry("texture", 7000, 2, based_on=0))
    assert "without seeing each other" in slot_shown(sheet, "texture").conflict
    assert sheet.last.words == "Product: texture, 7 of 10"


def test_a_sheet_that_may_not_be_seen_says_only_whether_it_is_in():
    (part,) = parts_shown(data(entry("texture", 5000)), frozenset())
    assert (part.state, part.words) == ("waiting", "not submitted")
    (own,) = parts_shown(data(entry("texture", 5000)), frozenset({"first"}))
    assert (own.state, own.words) == ("doing", "1 of 12 given")


@pytest.mark.parametrize(
    "name, short", [("Wren Ashlark", "Wren"), ("Bartholomewina Lee", "Bartholomew…"), ("山田", "山田")]
)
def test_a_name_fits_the_button_at_the_lower_edge(name, short):
    assert short_name(name) == short
