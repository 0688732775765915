"""The price of leading: free is never longer, bounds hold for their way, a known plan counts."""

from dataclasses import replace

import pytest

from kitchen.timeplan import price
from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.price import Led, better_prices, led_bound, prices_at_once, with_plan
from kitchen.timeplan.problem import Bench, Problem, Task
from tests.builders.timeplan_lessons import class_of, college_lesson


@pytest.fixture
def quickly(monkeypatch):
    monkeypatch.setattr(price, "SEARCH_SECONDS", 0.4)
    monkeypatch.setattr(price, "PROOF_SECONDS", 0.2)


@pytest.mark.parametrize("code", ["main-1", "main-2"])
def test_led_by_nobody_is_never_longer_than_led(code):
    free, *led = prices_at_once(college_lesson(code))
    assert free.waves == 0
    assert [each.waves for each in led] == [1, 2, 3]
    found = [each.finish_minutes for each in led if each.finish_minutes is not None]
    assert found
    assert free.finish_minutes <= min(found)
    assert all(each.bound_minutes <= each.finish_minutes for each in (free, *led) if each.finish_minutes)


def test_more_waves_than_benches_are_no_other_way():
    assert [each.waves for each in prices_at_once(class_of("R01", "juniper", 2, 210))] == [0, 1, 2]
    alone = class_of("R01", "juniper", 1, 210)
    assert [each.waves for each in prices_at_once(alone)] == [0, 1]


def test_a_plan_that_is_known_is_taken_for_its_way_and_for_nobody():
    plan = plan_lesson(college_lesson("main-2"), None).plan
    shorter = replace(plan, finish_minutes=plan.bound_minutes, by_the_minute=())
    prices = (Led(0, 900, 10), Led(plan.waves, 900, 10), Led(plan.waves + 1, 900, 10))
    free, own, other = with_plan(prices, shorter)
    assert (free.finish_minutes, own.finish_minutes, other.finish_minutes) == (
        plan.bound_minutes,
        plan.bound_minutes,
        900,
    )
    assert {each.bound_minutes for each in (free, own, other)} == {plan.bound_minutes}


def test_a_plan_with_steps_by_the_minute_is_a_way_of_its_own():
    plan = replace(plan_lesson(college_lesson("main-2"), None).plan, by_the_minute=(3,))
    *others, own = with_plan((Led(0, 900, 10), Led(plan.waves, 900, 10)), plan)
    assert (own.waves, own.by_the_minute, own.finish_minutes) == (plan.waves, (3,), plan.finish_minutes)
    assert others[1].finish_minutes == 900


def test_what_is_searched_is_no_longer_than_what_was_at_once(quickly):
    lesson = class_of("R01", "juniper", 4, 210)
    plan = plan_lesson(lesson, None).plan
    rounds = list(better_prices(lesson, plan))
    assert [sum(each.searched for each in prices) for prices in rounds] == [1, 2, 3, 4]
    for before, after in zip(prices_at_once(lesson), rounds[-1][:4], strict=True):
        assert after.finish_minutes <= before.finish_minutes
        assert before.bound_minutes <= after.bound_minutes <= after.finish_minutes


def on_the_fives(minutes):
    """Two pieces of work of one cook, one after the other in any order, both called on the fives."""
    tasks = tuple(Task(str(n), each, "1", hands=True) for n, each in enumerate(minutes))
    called = frozenset(task.name for task in tasks)
    return Problem(tasks, (), (Bench("1"),), on_the_clock=called, clock_minutes=5)


def test_a_bound_of_a_led_class_counts_its_clock():
    """7 and 3 min on the fives: 7 first ends at 7 and 3 begins at 10, ends 13; 3 first, then 5 to 12."""
    problem = on_the_fives((7, 3))
    answer = plan_by_hand(problem)
    assert led_bound(problem, Answer({"0": 0, "1": 10}, {}), 10) == 12
    assert led_bound(problem, answer, answer.finish(problem)) == answer.finish(problem)


def test_no_led_plan_of_the_college_is_below_its_bound(quickly):
    lesson = college_lesson("main-1")
    for waves in (1, 2):
        problem = problem_of(lesson, waves)
        answer = plan_by_hand(problem, 8)
        assert check(problem, answer) == []
        assert led_bound(problem, answer, 0, 0.5) <= answer.finish(problem)
