"""A plan that people read is the answer it was made from."""

from kitchen.timeplan.answer import check
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.plan_answer import answer_of, question_and_answer
from tests.builders.timeplan_lessons import class_of, college_lesson


def test_bars_and_demonstrations_give_back_starts_and_ovens():
    lesson = college_lesson("main-2")
    planned = plan_lesson(lesson, None)
    assert answer_of(planned.plan) == planned.solved.answer


def test_the_question_is_the_one_the_plan_was_led_by():
    lesson = college_lesson("main-2")
    planned = plan_lesson(lesson, None)
    problem, answer = question_and_answer(lesson, planned.plan)
    assert problem == planned.problem
    assert check(problem, answer) == []


def test_a_plan_that_takes_another_way_is_read_back_with_it():
    lesson = class_of("R12", "saffron", 6, 300)
    planned = plan_lesson(lesson, Effort(seconds=2.0))
    assert any(line.way for bench in planned.plan.benches for line in bench.lines)
    problem, answer = question_and_answer(lesson, planned.plan)
    assert problem == planned.problem
    assert check(problem, answer) == []
    assert answer.starts == planned.solved.answer.starts
    assert check(planned.question, answer_of(planned.plan)) == []
    said = [line.points[0] for bench in planned.plan.benches for line in bench.lines if line.way]
    assert "By hand, 22 min, since the food processors are taken." in said
