"""Plates marked twice: who is read, line by line and in total."""

from datetime import UTC, date, datetime

from assessments.marking.entry import Entry
from assessments.marking.sittings import SheetData, SittingData
from assessments.schemes.card import Targets
from assessments.verification.agreement.plates import TOTAL, beside, lines
from tests.builders.schemes import college_scheme, techniques

START = datetime(2027, 3, 8, 9, 0, tzinfo=UTC)
FULL = {"organisation": 3, "hygiene": 2, "appearance": 8, "texture": 8, "flavour": 7, "timing": 100}


def sheet(part, marks, *, submitted=True):
    entries = tuple(
        Entry(place.split(".")[0], place.partition(".")[2], 1, mark * 1000) for place, mark in marks.items()
    )
    return SheetData(part, f"marker {part}", 1, submitted, entries)


def sitting(*sheets, scheme="hundred_points", count=1):
    return SittingData(college_scheme(scheme), techniques(count), Targets(), START, 165, 0, sheets)


def by_code(sittings):
    return {line.code: line for line in lines(sittings)}


def test_marks_of_both_stand_beside_each_other_on_their_line():
    found = by_code([sitting(sheet("first", {"appearance": 8}), sheet("second", {"appearance": 6}))])
    assert found["appearance"].plates == ((8, 6),)
    assert (found["appearance"].step, found["appearance"].steps) == (1, 11)


def test_techniques_are_plates_of_one_line():
    subjects = techniques(2)
    marks = {f"technique.{each.code}": number for number, each in enumerate(subjects, 1)}
    found = by_code([sitting(sheet("first", marks), sheet("second", marks), count=2)])
    assert found["technique"].plates == ((1, 1), (2, 2))


def test_nothing_is_read_before_every_sheet_is_in():
    waiting = sheet("second", {"appearance": 6}, submitted=False)
    assert lines([sitting(sheet("first", {"appearance": 8}), waiting)]) == ()
    assert lines([sitting(sheet("first", {"appearance": 8}))]) == ()


def test_the_agreed_sheet_is_no_marker():
    first, second = sheet("first", {"appearance": 8}), sheet("second", {"appearance": 6})
    found = by_code([sitting(first, second, sheet("agreed", {"appearance": 7}))])
    assert found["appearance"].plates == ((8, 6),)
    assert lines([sitting(first, sheet("agreed", {"appearance": 7}))]) == ()


def test_a_mark_that_one_did_not_give_is_a_gap_and_measures_are_left_out():
    first = sheet("first", {"appearance": 8, "texture": 4, "portion_weight": 35})
    found = by_code([sitting(first, sheet("second", {"appearance": 6, "portion_weight": 36}))])
    assert set(found) == {"appearance"}


def test_totals_are_those_of_each_sheet_by_itself():
    marks = {**FULL, f"technique.{techniques(1)[0].code}": 2}
    higher = {**marks, "appearance": 10}
    data = sitting(sheet("first", marks), sheet("second", higher))
    assert data.outcome("first").complete
    (plate,) = by_code([data])[TOTAL].plates
    assert plate[1] - plate[0] == 2
    rows = beside([(date(2027, 3, 8), data)])
    assert [(row.marker, row.own - row.others) for row in rows] == [
        ("marker first", -2),
        ("marker second", 2),
    ]
