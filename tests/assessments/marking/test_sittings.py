"""One sitting as data: what counts, who sees what, when two markers must talk."""

from datetime import datetime
from types import SimpleNamespace

import pytest

from assessments.marking.entry import Entry
from assessments.marking.sittings import (
    SheetData,
    SittingData,
    differences,
    takes_more_markers,
    visible_parts,
)
from assessments.schemes.card import Targets
from tests.builders.schemes import college_scheme, techniques

START = datetime(2027, 2, 25, 9, 15)
#: Without techniques below it: a card of one hundred points on a dish that states no targets.
MARKS = {"organisation": 2, "hygiene": 2, "appearance": 7, "texture": 7, "flavour": 7, "timing": 100}


def sheet(part, submitted=True, **changed):
    entries = [Entry(code, "", 1, value * 1000) for code, value in {**MARKS, **changed}.items()]
    entries += [Entry("technique", f"t{number}", 1, 2000) for number in range(1, 5)]
    return SheetData(part, part.title(), 1, submitted, tuple(entries))


def sitting(*sheets, scheme="hundred_points"):
    return SittingData(college_scheme(scheme), techniques(4), Targets(), START, 165, 0, sheets)


@pytest.mark.parametrize(
    "own, sheets, seen",
    [
        ("first", [("first", False)], {"first"}),
        ("first", [("first", True), ("second", False)], {"first"}),
        ("second", [("first", True), ("second", False)], {"second"}),
        ("second", [("first", True), ("second", True)], {"first", "second"}),
        ("", [("first", True), ("second", False)], set()),
        ("", [("first", False)], set()),
        ("", [("first", True)], {"first"}),
    ],
)
def test_nobody_sees_another_sheet_before_all_are_in(own, sheets, seen):
    made = tuple(SheetData(part, part, 1, submitted) for part, submitted in sheets)
    assert visible_parts(own, made) == seen


def test_the_agreed_sheet_counts_and_the_first_stays_as_it_was():
    data = sitting(sheet("first"), sheet("second", texture=1), sheet("agreed", texture=1))
    assert data.record().milli_total == data.outcome("second").milli_total
    assert data.outcome("first").milli_total - data.record().milli_total == 6000


@pytest.mark.parametrize(
    "texture, words",
    [
        (7, ()),
        (2, ()),
        (1, ("The totals are 71 and 65, 6 apart; more than 5 are talked over.",)),
    ],
)
def test_more_than_five_points_apart_are_talked_over(texture, words):
    data = sitting(sheet("first"), sheet("second", texture=texture))
    assert differences(data) == words


def test_two_sides_of_a_band_are_talked_over_however_near():
    near = sitting(sheet("first", hygiene=1, texture=4), sheet("second", hygiene=2, texture=4))
    assert differences(near)[-1] == "One says not passed, the other merit."


def test_once_agreed_there_is_nothing_to_talk_over():
    data = sitting(sheet("first"), sheet("second", texture=1), sheet("agreed"))
    assert differences(data) == ()


def test_a_sitting_waits_for_every_sheet_begun():
    assert sitting(sheet("first")).all_in
    assert not sitting(sheet("first"), sheet("second", submitted=False)).all_in
    assert not sitting(sheet("first"), scheme="judges_and_measures").all_in


@pytest.mark.parametrize(
    "scheme, parts, more",
    [
        ("hundred_points", ["first"], True),
        ("hundred_points", ["first", "second"], False),
        ("judges_and_measures", ["first", "second"], True),
        ("judges_and_measures", ["first", "second", "third"], False),
    ],
)
def test_a_scheme_takes_so_many_markers_and_no_more(scheme, parts, more):
    data = sitting(*(SheetData(part, part, 1, False) for part in parts), scheme=scheme)
    assert takes_more_markers([SimpleNamespace(data=data)]) is more
    assert takes_more_markers([]) is False
