"""What moves, in words: from when to when, into which oven, what is then held too long."""

import pytest

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.live import live
from kitchen.timeplan.day.moves import broken_words, moves_of, standing_heading
from kitchen.timeplan.day.situation import situation
from kitchen.timeplan.day.told import Told
from kitchen.timeplan.lead import plan_lesson
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def planned():
    return plan_lesson(college_lesson("main-2"), None)


@pytest.fixture
def told(planned):
    names = {oven.code: oven.name for oven in planned.plan.ovens}
    return Told(planned.plan, live(planned.problem, planned.solved.answer, [], 0), names)


def moved(told, starts=None, ovens=None):
    at = situation(told.state)
    return at, Answer({**at.old.starts, **(starts or {})}, {**at.old.ovens, **(ovens or {})})


def test_nothing_that_stays_is_told(told):
    at, answer = moved(told)
    assert moves_of(told, at, answer) == ()


def test_a_move_says_from_when_to_when_by_bench_and_step(told):
    task = next(t for t in told.state.problem.tasks if t.hands)
    start = told.state.plan.starts[task.name]
    (move,) = moves_of(told, *moved(told, {task.name: start + 15}))
    assert move.head == f"Bench {task.bench}, step {task.step}"
    assert (move.before, move.after) == (told.at(start), told.at(start + 15))
    assert move.by_words == "15 min later"


def test_another_oven_is_told_even_when_the_minute_stays(told):
    task = next(t for t in told.state.problem.tasks if t.bake)
    other = next(o.name for o in told.state.problem.ovens if o.name != told.state.plan.ovens[task.name])
    (move,) = moves_of(told, *moved(told, ovens={task.name: other}))
    assert move.oven == f"Into {told.oven_name(other).lower()}."
    assert move.by_words == ""


def test_a_hold_that_becomes_too_long_is_told_with_both_figures(told):
    window = next(w for w in told.state.problem.windows if w.longest)
    end = told.state.plan.starts[window.before] + told.state.problem.task[window.before].minutes
    at, answer = moved(told, {window.after: end + window.longest + 6})
    assert any(
        f"food waits {window.longest + 6} min; the recipe allows {window.longest} min." in words
        for words in broken_words(told, at, answer)
    )


def test_a_wait_within_a_step_that_becomes_longer_is_not_called_against_the_recipe(told):
    parts = {w.before: w.after for w in told.state.problem.windows if w.longest == 0}
    task = told.state.problem.task
    before, after = next(each for each in parts.items() if task[each[0]].step == task[each[1]].step)
    end = told.state.plan.starts[before] + task[before].minutes
    at, answer = moved(told, {after: end + 7})
    words = " ".join(broken_words(told, at, answer))
    assert f"within step {task[after].step} food waits 7 min longer than it should." in words
    assert "recipe" not in words


def test_where_nothing_would_move_the_plan_is_not_said_to_fail(told):
    assert standing_heading(()) == "Food waits longer than it should"
    task = next(t for t in told.state.problem.tasks if t.hands)
    later = moves_of(told, *moved(told, {task.name: told.state.plan.starts[task.name] + 15}))
    assert standing_heading(later) == "The plan no longer holds"
