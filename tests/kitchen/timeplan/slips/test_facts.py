"""The chances of a lesson's plan in words: no spread is the plan, spread names its queues."""

import pytest

from kitchen.timeplan.answer import check
from kitchen.timeplan.chance import GROUPS, Pace
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.plan_answer import question_and_answer
from kitchen.timeplan.slips.facts import slips_of
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def planned():
    lesson = college_lesson("main-1")
    return lesson, plan_lesson(lesson, None).plan


def test_the_plan_read_back_is_the_legal_answer_that_it_was_made_from(planned):
    lesson, plan = planned
    problem, answer = question_and_answer(lesson, plan)
    assert check(problem, answer) == []
    assert answer.finish(problem) == plan.finish_minutes


def test_without_spread_every_class_ends_as_planned(planned):
    lesson, plan = planned
    slips = slips_of(lesson, plan, Pace())
    assert slips.heading == "Every such class ends in time"
    assert {line.figure for line in slips.benches} == {"100"}
    assert (slips.queues, slips.holds, slips.reserves) == ((), (), ())


def test_a_class_that_does_it_first_is_less_likely_to_end_in_time(planned):
    lesson, plan = planned
    first = slips_of(lesson, plan, GROUPS["first"])
    quick = slips_of(lesson, plan, GROUPS["quick"])
    assert [len(s.benches) for s in (first, quick)] == [len(plan.benches)] * 2
    shares = [min(int(line.figure) for line in slips.benches) for slips in (first, quick)]
    assert shares[0] < shares[1]
    assert any(line.head.endswith("kept free at the end") for line in first.reserves)
    assert any(line.hand for line in first.benches)
