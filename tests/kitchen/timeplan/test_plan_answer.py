"""A plan that people read is the answer it was made from."""

from kitchen.timeplan.answer import check
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.plan_answer import answer_of, question_and_answer
from tests.builders.timeplan_lessons import college_lesson


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
