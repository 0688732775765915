"""The re-plan keeps its four promises on every kind of disturbance, and finds the small optimum."""

from dataclasses import replace

import pytest

from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.day import solver
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.repair import pushed
from kitchen.timeplan.day.situation import price, situation
from kitchen.timeplan.day.solver import oven_moves, replan, settled
from kitchen.timeplan.problem import Pause
from tests.builders.day import KINDS, as_planned, disturbed
from tests.builders.timeplan import tiny_class, two_benches


@pytest.fixture
def problem():
    return two_benches()


@pytest.fixture
def plan(problem):
    return plan_by_hand(problem)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("seed", range(4))
def test_every_answer_can_be_cooked_and_moves_nothing_that_has_begun(problem, plan, kind, seed):
    at = disturbed(problem, plan, kind, seed)
    found = replan(at, seconds=0.4)
    assert found.answer is not None
    assert hard(check_from(at.problem, found.answer, at.past)) == []
    for name in at.past.fixed:
        assert found.answer.starts[name] == at.old.starts[name]
        assert found.answer.ovens.get(name) == at.old.ovens.get(name)


@pytest.mark.parametrize("kind", ["later", "much later", "oven"])
def test_a_replan_keeps_the_break(problem, kind):
    middle = plan_by_hand(problem).finish(problem) // 2
    with_break = replace(problem, breaks=(Pause(middle, 10),))
    for seed in range(3):
        at = disturbed(with_break, plan_by_hand(with_break), kind, seed)
        found = replan(at, seconds=0.4)
        assert found.answer is not None and hard(check_from(with_break, found.answer, at.past)) == []


def test_nothing_moves_when_nothing_was_disturbed(problem, plan):
    for now in range(-15, plan.finish(problem), 3):
        at = situation(live(problem, plan, as_planned(problem, plan, now), now))
        found = replan(at, seconds=0.3)
        assert found.how == "nothing moves"
        assert found.price.figure == 0
        assert oven_moves(at, found.answer) == 0


def test_a_step_begun_during_start_up_is_fixed_like_any_other(problem, plan):
    deeds = [Deed(1, "started", -7, "1/mix"), Deed(2, "later", -6, "1/mix", minutes=30)]
    at = situation(live(problem, plan, deeds, -5))
    found = replan(at, seconds=0.3)
    assert found.answer.starts["1/mix"] == -7
    assert found.answer.starts["1/rest"] >= 33
    assert hard(check_from(at.problem, found.answer, at.past)) == []


def test_the_solver_is_never_dearer_than_pushing_to_the_right():
    tried = 0
    for seed in range(40):
        tiny = tiny_class(seed)
        try:
            plan = plan_by_hand(tiny)
        except NoPlanByHand:
            continue
        at = disturbed(tiny, plan, KINDS[1 + seed % 3], seed)
        first = pushed(at)
        if not first:
            continue
        tried += 1
        found = replan(at, seconds=0.3)
        assert price(at, found.answer).figure <= price(at, first[0]).figure
    assert tried > 15


def test_without_the_solver_the_answer_is_pushed_to_the_right(problem, plan, monkeypatch):
    monkeypatch.setattr(solver, "solver_module", lambda: None)
    at = disturbed(problem, plan, "much later", 2)
    found = replan(at)
    assert found.how in ("moved later", "nothing moves")
    assert hard(check_from(at.problem, found.answer, at.past)) == []


def test_where_no_oven_is_left_there_is_no_answer(problem, plan):
    deeds = as_planned(problem, plan, 5)
    out = [Deed(len(deeds) + n, "failed", 5, oven=oven) for n, oven in enumerate(("left", "right"), 1)]
    at = situation(live(problem, plan, [*deeds, *out], 5))
    assert replan(at).answer is None


def test_an_exchange_of_ovens_that_wins_nothing_is_taken_back(problem, plan):
    at = situation(live(problem, plan, as_planned(problem, plan, 2), 2))
    other = {"left": "right", "right": "left"}
    swapped = type(at.old)(at.old.starts, {name: other[oven] for name, oven in at.old.ovens.items()})
    assert settled(at, swapped).ovens == at.old.ovens
