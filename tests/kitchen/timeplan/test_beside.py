"""Steps with somebody beside: which, why, and one bench at a time for each who may."""

import json
from dataclasses import replace

import pytest

from kitchen.rooms.listed import USUAL
from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.beside import BESIDE, WAIT_FOR, any_beside, beside_words, why_beside
from kitchen.timeplan.calls import calls_of
from kitchen.timeplan.kept import kept_plan, kept_question, read_plan
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.pages import stood_beside, strip_lines
from kitchen.timeplan.paper import strip_rows
from tests.builders.timeplan_lessons import class_of

#: Two benches of four have a learner under 18; step 3 of the mousseline is done at the food processor.
R12_STEP = 3


def at_the_blade(supervisors=1, young=("1", "3"), listed=USUAL):
    lesson = class_of("R12", "saffron", 4, 300, supervisors=supervisors, listed=listed)
    benches = tuple(replace(bench, under_18=bench.name in young) for bench in lesson.benches)
    appliances = tuple(
        replace(each, units=4) if each.kind == "food_processor" else each for each in lesson.appliances
    )
    return replace(lesson, benches=benches, appliances=appliances)


def step_of(lesson, bench=0):
    return next(s for s in lesson.benches[bench].recipe.steps if s.position == R12_STEP)


def test_somebody_stands_beside_a_learner_under_18_at_a_listed_machine_and_not_at_the_bench_by_hand():
    lesson = at_the_blade()
    machine, by_hand = step_of(lesson).ways
    assert why_beside(lesson, lesson.benches[0], step_of(lesson), machine) == "listed"
    assert why_beside(lesson, lesson.benches[0], step_of(lesson), by_hand) == ""
    assert why_beside(lesson, lesson.benches[1], step_of(lesson), machine) == ""
    assert why_beside(replace(lesson, listed=frozenset()), lesson.benches[0], step_of(lesson), machine) == ""


def test_the_recipe_asks_for_it_at_every_bench():
    lesson = at_the_blade(young=(), listed=frozenset())
    asked = replace(step_of(lesson), supervised=True)
    assert why_beside(lesson, lesson.benches[1], asked, asked.ways[0]) == "step"


def test_the_lecturer_alone_is_the_lecturer_and_several_are_a_supply():
    one, two = problem_of(at_the_blade()), problem_of(at_the_blade(supervisors=2))
    names = [f"{bench}/{R12_STEP}/0" for bench in "1234"]
    assert [one.task[name].lecturer for name in names] == [True, False, True, False]
    assert not any(task.lecturer for task in two.tasks)
    assert [BESIDE in dict(two.task[name].uses) for name in names] == [True, False, True, False]
    assert {s.name: s.units for s in two.supplies}[BESIDE] == 2
    assert BESIDE not in {s.name for s in one.supplies}
    assert BESIDE not in {s.name for s in problem_of(at_the_blade(2, young=())).supplies}


@pytest.mark.parametrize(("supervisors", "code"), [(1, "lecturer"), (2, "supply")])
def test_the_check_refuses_more_benches_at_once_than_may_be_stood_beside(supervisors, code):
    lesson = at_the_blade(supervisors, young=("1", "2", "3"))
    problem = replace(problem_of(lesson).free(), ovens=problem_of(lesson).ovens)
    planned = plan_lesson(lesson, None)
    assert check(planned.problem, planned.solved.answer) == []
    at = planned.solved.answer.starts[f"1/{R12_STEP}/0"]
    together = {f"{bench}/{R12_STEP}/0": at for bench in "123"}
    moved = Answer({**planned.solved.answer.starts, **together}, planned.solved.answer.ovens)
    assert code in {found.code for found in check(problem, moved)}


def test_a_lesson_knows_whether_anybody_is_stood_beside():
    lesson = at_the_blade(young=())
    own = any(step.supervised for step in lesson.benches[0].recipe.steps)
    assert any_beside(lesson) == own
    assert any_beside(at_the_blade())


def test_the_page_says_which_steps_and_why_and_never_what_a_law_forbids():
    found = [(3, "listed", "food processor", "1"), (3, "listed", "food processor", "3"), (9, "step", "", "2")]
    one, other = beside_words(found, 1)
    assert one.startswith("Step 3 at benches 1 and 3 uses the food processor, which is on the college’s list")
    assert "the lecturer stands beside, one bench at a time" in one and "forbid" not in one
    assert other.startswith("Step 9 at bench 2: the recipe asks for somebody beside")
    assert "one of the two who may stand beside" in beside_words(found, 2)[0]


def test_a_learners_strip_says_that_somebody_stands_beside_and_the_kept_plan_holds_no_age():
    planned = plan_lesson(at_the_blade(), None)
    assert any("under 18" in sentence and "1 and 3" in sentence for sentence in stood_beside(planned.plan))
    lines = {line.head: line.points for line in strip_lines(planned.plan, planned.plan.benches[0])}
    assert WAIT_FOR in lines["Step 3"]
    others = {line.head: line.points for line in strip_lines(planned.plan, planned.plan.benches[1])}
    assert WAIT_FOR not in others["Step 3"]
    said = str(lines) + str(
        [line for bench in planned.plan.benches for line in strip_rows(planned.plan, bench)]
    )
    said += str(calls_of(planned.plan))
    assert not any(words in said for words in ("under 18", "years", "under_18", "college’s list"))
    assert read_plan(kept_plan(planned.plan)) == planned.plan
    kept = json.dumps([kept_plan(planned.plan), kept_question(planned.problem)])
    assert "born" not in kept and "under_18" not in kept
