"""The chances of a lesson's plan in words: no spread is the plan, spread names its queues."""

import pytest

from kitchen.timeplan.answer import check
from kitchen.timeplan.chance import GROUPS, HoldBroken, Pace
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.plan_answer import question_and_answer
from kitchen.timeplan.reserves import Reserve
from kitchen.timeplan.slips.facts import hold_lines, reserve_line, slips_of
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
    assert any(line.head.endswith("more before clear-down") for line in first.reserves)
    assert any(line.hand for line in first.benches)


@pytest.mark.parametrize(
    ("before", "after", "figure", "words"),
    [(0.70, 0.76, "+6", "Then 76 of 100"), (0.986, 0.998, "under 1", "Then 99 of 100")],
)
def test_what_a_reserve_adds_and_what_is_then_in_time_add_up(before, after, figure, words):
    line = reserve_line(Reserve("kept", "five minutes more before clear-down", after, after - before))
    assert line.figure == figure
    assert line.words.startswith(words)


def test_only_what_stands_between_two_steps_is_measured_by_the_recipe(planned):
    _, plan = planned
    problem, _ = question_and_answer(*planned)
    bench = plan.benches[0].name
    parts = [task for task in problem.tasks if task.bench == bench]
    two = next(task for task in parts if sum(other.step == task.step for other in parts) == 2)
    other = next(task for task in parts if task.step == two.step and task is not two)
    later = next(task for task in parts if task.step != two.step)
    within, between = hold_lines(
        problem, [HoldBroken(two.name, other.name, 0.2), HoldBroken(two.name, later.name, 0.2)]
    )
    assert within.words.startswith("What follows within the step comes late at one bench")
    assert between.words.startswith("Food stands longer than the recipe allows at one bench")
