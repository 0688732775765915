"""What is kept of an accepted plan reads back as it was."""

import json
from dataclasses import replace

import pytest

from kitchen.timeplan.kept import kept_plan, kept_question, question_hash, read_plan, read_question
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.problem import Pause
from kitchen.timeplan.ways import Way
from tests.builders.timeplan import two_benches
from tests.builders.timeplan_lessons import class_of, college_lesson


def test_a_plan_reads_back_as_it_was_written():
    plan = plan_lesson(college_lesson("main-2"), None).plan
    assert read_plan(json.loads(json.dumps(kept_plan(plan)))) == plan


def test_another_shape_is_refused():
    with pytest.raises(ValueError, match="shape 9"):
        read_plan({"shape": 9})


def test_the_same_question_has_the_same_hash_and_a_changed_one_another():
    same, also = problem_of(college_lesson("main-1")), problem_of(college_lesson("main-1"))
    assert question_hash(same) == question_hash(also)
    assert question_hash(same) != question_hash(problem_of(class_of("R01", "juniper", 7, 180)))


def test_the_question_is_plain_json():
    text = json.dumps(kept_question(problem_of(college_lesson("main-1"))))
    assert json.loads(text)["shape"] == 1


def test_a_question_reads_back_as_it_was_written():
    question = problem_of(college_lesson("main-2"))
    assert read_question(json.loads(json.dumps(kept_question(question)))) == question
    with pytest.raises(ValueError, match="shape 9"):
        read_question({"shape": 9})


def test_a_break_is_kept_with_the_question_and_a_question_without_one_is_kept_as_before():
    problem = replace(two_benches(), breaks=(Pause(5, 10),))
    assert read_question(json.loads(json.dumps(kept_question(problem)))) == problem
    assert "breaks" not in kept_question(two_benches())
    assert question_hash(problem) != question_hash(two_benches())


def test_other_ways_are_kept_with_the_question():
    task = replace(two_benches().tasks[0], ways=(Way(12, (("mixer", 1),), True, "hand"),))
    problem = replace(two_benches(), tasks=(task, *two_benches().tasks[1:]))
    assert read_question(json.loads(json.dumps(kept_question(problem)))) == problem
    assert "ways" not in kept_question(two_benches())["tasks"][0]
