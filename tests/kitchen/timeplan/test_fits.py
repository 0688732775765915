"""Does it fit, and what is in the way.

The figures of the quiche are those of the demonstration college's own check.
"""

from dataclasses import replace

import pytest

from kitchen.timeplan.class_data import ShownData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.fits import judge, step_words, what_would_help
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.pins.data import PinData
from tests.builders.timeplan_lessons import (
    appliances_of,
    class_of,
    college_lesson,
    first_wish,
    only_the_usual_way,
)

STEADY = Effort(work=0.4)


@pytest.fixture(scope="module")
def wish():
    return judge(first_wish(), STEADY)


def test_the_first_wish_is_26_minutes_and_two_benches_short(wish):
    assert not wish.fits
    assert (wish.chain_minutes, wish.usable_minutes) == (161, 135)
    assert (wish.benches, wish.room_benches) == (14, 12)
    missing = {reason.code: reason.missing_minutes for reason in wish.reasons}
    assert missing == {"benches": 0, "chain": 26}


def test_the_reasons_are_whole_sentences_with_figures(wish):
    assert [reason.words for reason in wish.reasons] == [
        "Juniper Kitchen has twelve benches; 14 are wanted.",
        "Steps 1, 2, 4, 5, 6, 8 and 9 follow one another and take 161 minutes. The slot leaves 135 minutes"
        " for cooking: that alone is 26 minutes too long.",
    ]


@pytest.mark.parametrize(("code", "bound"), [("main-1", 130), ("main-2", 128)])
def test_the_lessons_as_planned_fit_with_their_demonstrations(code, bound):
    verdict = judge(college_lesson(code), STEADY)
    assert verdict.fits, verdict.reasons
    assert verdict.reasons == ()
    assert bound <= verdict.planned.plan.bound_minutes <= verdict.planned.plan.finish_minutes


def test_a_lesson_without_the_solver_is_judged_by_our_own_rule():
    verdict = judge(college_lesson("main-1"), None)
    assert verdict.fits
    assert verdict.planned.plan.status in ("by hand", "proved")


def test_what_the_room_lacks_is_said_and_nothing_is_planned():
    without = tuple(a for a in appliances_of("juniper") if a.kind != "oven")
    verdict = judge(class_of("R01", "juniper", 2, 210, appliances=without), None)
    assert verdict.planned is None
    assert verdict.reasons[0].code == "room_lacks"
    assert "oven (step 5)" in verdict.reasons[0].words


def test_too_few_shelves_are_named_with_their_minutes():
    """One oven of one shelf for seven tarts: 7 x 35 minutes of custard alone."""
    ovens = [a for a in appliances_of("juniper") if a.kind != "oven"]
    one = replace(appliances_of("juniper")[0], units=1)
    verdict = judge(class_of("R01", "juniper", 7, 225, appliances=(one, *ovens)), None)
    assert [reason.code for reason in verdict.reasons][0] == "ovens"
    assert verdict.reasons[0].missing_minutes > 0
    assert "shelf of the ovens" in verdict.reasons[0].words


def test_what_the_benches_wait_for_most_is_named():
    mixers = [a for a in appliances_of("saffron") if a.kind == "mixer"]
    one = tuple(a for a in appliances_of("saffron") if a not in mixers[1:])
    lesson = only_the_usual_way(class_of("R03", "saffron", 4, 210, appliances=one))
    (queue,) = what_would_help(problem_of(lesson))
    assert queue.words.startswith("What the benches wait for most is the mixers:")
    assert list(what_would_help(problem_of(class_of("R03", "saffron", 1, 210)))) == []


def test_a_machine_of_which_there_are_too_few_is_named():
    mixers = [a for a in appliances_of("saffron") if a.kind == "mixer"]
    one = tuple(a for a in appliances_of("saffron") if a not in mixers[1:])
    lesson = class_of("R03", "saffron", 4, 180, appliances=one)
    assert judge(lesson, None).fits
    verdict = judge(only_the_usual_way(lesson), None)
    assert verdict.reasons[0].words == (
        "The work at the mixers, of which there is one, ends at minute 158 at the earliest;"
        " the slot leaves 135 minutes."
    )


def test_no_time_at_all_is_said():
    verdict = judge(class_of("R10", "juniper", 1, 45), None)
    assert "no_time" in {reason.code for reason in verdict.reasons}


def test_steps_are_listed_in_words():
    assert step_words((4,)) == "Step 4"
    assert step_words((1, 2, 4)) == "Steps 1, 2 and 4"


def test_a_demonstration_is_part_of_what_does_not_fit():
    lesson = replace(class_of("R01", "juniper", 2, 210), shown=(ShownData(1, 30),))
    verdict = judge(lesson, None)
    assert not verdict.fits
    assert verdict.reasons[0].code == "start"


def test_where_our_rule_finds_nothing_round_what_is_fixed_the_reason_says_so():
    pins = (PinData(1, "start", "1", 8, 1, minute=20), PinData(2, "start", "1", 1, minute=60))
    found = judge(replace(class_of("R01", "juniper", 2, 210), pins=pins), None)
    assert found.planned is None
    assert "fixed by hand" in found.reasons[-1].words
