"""What the page says of a plan: whole sentences with the figures of the plan."""

from dataclasses import replace

import pytest

from kitchen.timeplan import words
from kitchen.timeplan.lead import plan_lesson
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def plan():
    return plan_lesson(college_lesson("main-1"), None).plan


def test_headings_say_fit_and_minutes(plan):
    assert words.heading(None, False) == "It cannot be planned yet"
    assert words.heading(plan, True) == f"It fits, with {135 - plan.finish_minutes} min in hand"
    assert words.heading(replace(plan, finish_minutes=135), True) == "It fits exactly"
    assert words.heading(replace(plan, finish_minutes=140), False) == "It does not fit: 5 min too long"
    proved = replace(plan, finish_minutes=166, bound_minutes=161)
    assert words.heading(proved, False) == "It does not fit: at least 26 min are missing"
    one = replace(plan, finish_minutes=138, bound_minutes=136)
    assert words.heading(one, False) == "It does not fit: at least 1 min is missing"
    assert words.heading(plan, False) == "It does not fit"


def test_the_lead_names_the_finish_and_what_nobody_beats(plan):
    assert words.lead_words(replace(plan, finish_minutes=131, bound_minutes=130)) == (
        "The last bench has finished at 11:26, if nothing slips. No plan can end earlier than 11:25."
    )
    exact = replace(plan, finish_minutes=130, bound_minutes=130)
    assert words.lead_words(exact).endswith("No plan can end earlier.")


def test_waves_fives_and_steps_ahead_are_told(plan):
    told = words.lead_by_words(replace(plan, by_the_minute=(4, 5)))
    assert told.startswith(
        "All benches begin each step together. Steps are called on the fives; steps 4 and 5"
    )
    assert told.endswith("Steps 1 and 2 are done before the lesson.")
    waves = words.lead_by_words(replace(plan, waves=2, by_the_minute=(), ahead=()))
    assert waves == "The benches begin in two waves. Steps are called on the fives."


def test_a_plan_made_on_the_day_does_not_claim_waves_and_fives(plan):
    told = words.lead_by_words(replace(plan, status="on the day", by_the_minute=(4, 5), ahead=()))
    assert told == "Each bench goes on from where it stands. Steps are called by the minute."


def test_the_slip_ends_in_its_sum(plan):
    fits = words.slip(plan, 124)
    assert (fits[-1].words, fits[-1].is_sum) == ("In hand", True)
    over = words.slip(replace(plan, finish_minutes=140), 124)
    assert (over[-1].words, over[-1].figure) == ("This plan is too long by", "5 min")
    assert sum(line.is_sum for line in fits) == 1


def test_progress_is_said_before_and_after_the_first_answer():
    assert words.progress_words({}) == "Waiting for a worker to take it."
    said = words.progress_words({"finish_minutes": 131, "bound_minutes": 130, "usable_minutes": 135})
    assert said == "Best so far: 131 min. No plan is shorter than 130 min. The slot leaves 135 min."


def test_what_is_left_out_is_said_in_capitals():
    assert words.free_from_words(("milk", "tree_nut"), ("Silas",)) == "FREE FROM MILK AND TREE NUT, Silas"
    assert words.free_from_words(()) == ""


def test_ways_are_counted_in_words():
    assert words.ways_words(()).startswith("No way out was found")
    assert words.ways_words(["one"]) == "One way out, planned and checked."
    assert words.ways_words(["one", "other"]).startswith("Two ways out, the least trouble first")
