"""Our own rule: legal whatever the class, and never far from short."""

import json

import pytest

from kitchen.timeplan.answer import check
from kitchen.timeplan.byhand import NoPlanByHand, one_pass, plan_by_hand
from kitchen.timeplan.problem import Bench, Demonstration, Problem, Task, Window
from tests.builders.classes import CLASSES, class_names
from tests.builders.timeplan import problem_of_class, tiny_class, tiny_class_with_a_break, two_benches


def test_the_rule_is_legal_on_two_benches():
    answer = plan_by_hand(two_benches())
    assert check(two_benches(), answer) == []


@pytest.mark.parametrize("seed", range(120))
def test_the_rule_keeps_breaks(seed):
    problem = tiny_class_with_a_break(seed)
    assert check(problem, plan_by_hand(problem)) == []


@pytest.mark.parametrize("seed", range(60))
def test_the_rule_is_legal_on_tiny_classes(seed):
    problem = tiny_class(seed)
    assert check(problem, plan_by_hand(problem)) == []


def test_food_that_would_be_held_too_long_is_begun_later():
    tasks = (Task("rest", 25, "1"), Task("busy", 100, "1", hands=True), Task("line", 10, "1", hands=True))
    windows = (Window("rest", "line", 0, 60), Window("busy", "line", 0, None))
    problem = Problem(tasks=tasks, windows=windows, benches=(Bench("1"),))
    answer = plan_by_hand(problem)
    assert answer.starts["line"] == 100
    assert answer.starts["rest"] == 15


def test_a_demonstration_is_put_where_it_disturbs_least():
    """First thing it would cost its ten minutes; during the rest it costs nothing."""
    tasks = (
        Task("mix", 10, "1", hands=True),
        Task("rest", 20, "1"),
        Task("pipe", 10, "1", hands=True, shown_by="p"),
    )
    windows = (Window("mix", "rest", 0, 0), Window("rest", "pipe", 0, 5))
    problem = Problem(tasks, windows, (Bench("1"),), demonstrations=(Demonstration("p", 10),))
    assert one_pass(problem).finish(problem) == 50
    assert plan_by_hand(problem).finish(problem) == 40


def test_what_cannot_be_held_is_said():
    tasks = (Task("a", 5, "1", hands=True), Task("b", 5, "1"), Task("c", 5, "1", hands=True))
    windows = (Window("a", "c", 0, 0), Window("a", "b"), Window("b", "c"))
    with pytest.raises(NoPlanByHand):
        plan_by_hand(Problem(tasks, windows, (Bench("1"),)))


@pytest.mark.parametrize("name", class_names("B1-", "B8-", "B30-"))
def test_the_rule_is_legal_on_whole_classes(name):
    problem = problem_of_class(json.loads((CLASSES / f"{name}.json").read_text("utf-8")))
    assert check(problem, one_pass(problem)) == []


def test_a_rule_without_repair_would_be_caught():
    """Planted: each task as early as it can, holds not looked at, breaks a hold."""
    tasks = (Task("rest", 25, "1"), Task("busy", 100, "1", hands=True), Task("line", 10, "1", hands=True))
    windows = (Window("rest", "line", 0, 60), Window("busy", "line"))
    problem = Problem(tasks, windows, (Bench("1"),))
    answer = plan_by_hand(problem)
    careless = type(answer)(dict(answer.starts) | {"rest": 0}, {})
    assert [found.code for found in check(problem, careless)] == ["too_late"]
