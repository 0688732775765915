"""The three columns: what has a time comes by the clock, the rest behind it."""

from dataclasses import replace

from kitchen.timeplan.own_order.sheet import StepFacts, sheet_of
from kitchen.timeplan.own_order.written import CleanLine
from tests.builders.own_order import GOOD, times

STEPS = (StepFacts(1, "Rub in.", 10), StepFacts(2, "Bake.", 2, ("20 min in the oven at 160 °C fan",)))


def test_lines_come_by_the_clock_with_cleaning_between():
    lines = sheet_of(GOOD, STEPS).lines
    assert [(line.at, line.head) for line in lines] == [
        ("09:20", "Step 1"),
        ("09:40", "Step 2"),
        ("09:45", "Cleaning"),
    ]
    assert lines[1].points == ("Oven lit at once", "Meanwhile: Wash the bowl")
    assert lines[2].points == ("10 min",)


def test_a_step_without_a_time_stands_behind_those_with_one():
    lines = sheet_of(times("", "09:40"), STEPS).lines
    assert [line.head for line in lines] == ["Step 2", "Cleaning", "Step 1"]
    assert lines[-1].at == ""


def test_a_time_that_cannot_be_read_stays_as_it_was_written():
    assert sheet_of(times("25:99", "0940"), STEPS).lines[-1].at == "25:99"
    assert sheet_of(times("25:99", "0940"), STEPS).lines[0].at == "09:40"


def test_a_task_without_own_words_has_the_recipes():
    assert sheet_of(times("09:20", "09:40"), STEPS).lines[0].task == "Rub in."


def test_the_plans_time_stands_beside_where_it_is_given_and_nowhere_else():
    assert [line.plan_at for line in sheet_of(GOOD, STEPS).lines] == ["", "", ""]
    assert [line.plan_at for line in sheet_of(GOOD, STEPS, {1: 555}).lines] == ["09:15", "", ""]


def test_a_step_that_breaks_something_is_marked():
    assert [line.breaks for line in sheet_of(GOOD, STEPS, broken=(2,)).lines] == [False, True, False]


def test_an_empty_line_of_cleaning_is_no_line():
    assert len(sheet_of(replace(GOOD, cleaning=(CleanLine(),)), STEPS).lines) == 2


def test_what_a_step_takes_is_said_in_its_order():
    assert STEPS[1].meta == "2 min of hands, then 20 min in the oven at 160 °C fan"
    assert STEPS[1].begins_with == ""
    assert replace(STEPS[1], wait_first=True).begins_with == "Its time is when the wait begins."
    assert replace(STEPS[1], wait_first=True).meta == "20 min in the oven at 160 °C fan, then 2 min of hands"
