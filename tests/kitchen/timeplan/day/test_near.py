"""Pieces of a re-plan: only the piece moves, nothing illegal is kept, and small classes reach the optimum."""

import pytest

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.near import LEAST_SIZE, Near, quick_solver
from kitchen.timeplan.day.repair import pushed
from kitchen.timeplan.day.situation import price
from kitchen.timeplan.day.soft import soft_model
from kitchen.timeplan.solver import solver_module
from tests.builders.day import KINDS, disturbed
from tests.builders.timeplan import tiny_class, two_benches


def a_disturbed_class():
    problem = two_benches()
    return disturbed(problem, plan_by_hand(problem), "much later", 2)


def the_search(at, first=None):
    return Near(solver_module(), at, first or pushed(at)[0], lambda: 5.0)


def put_off(at, minutes):
    """Everything to come that many minutes later than pushed: legal, and dear."""
    first = pushed(at)[0]
    return Answer({n: s + minutes * (n not in at.past.fixed) for n, s in first.starts.items()}, first.ovens)


def test_all_but_the_piece_stands():
    at = a_disturbed_class()
    near = the_search(at, put_off(at, 20))
    bench = next(iter(near.benches))
    piece = {task.name for task in near.benches[bench]}
    assert near._fix(near.best, piece)
    held = {
        name for name, v in near.soft.built.start.items() if len(set(near.variables[v.index].domain)) == 1
    }
    assert held == near.soft.built.start.keys() - piece
    before = dict(near.best.starts)
    near._solve(near.best)
    moved = {name for name, start in near.best.starts.items() if start != before[name]}
    assert moved and moved <= piece


def test_an_answer_that_cannot_be_cooked_is_never_kept_however_cheap():
    at = a_disturbed_class()
    near = the_search(at)
    wish = Answer({**at.old.starts, **at.wished}, at.old.ovens)
    assert price(at, wish).figure < near.figure
    assert hard(check_from(at.problem, wish, at.past))
    assert not near.take(wish)
    assert near.best is not wish


def test_pieces_bring_back_what_was_put_off_for_nothing():
    at = a_disturbed_class()
    near = the_search(at, put_off(at, 20))
    dear = near.figure
    for _ in range(12):
        near.search_one()
    assert near.figure <= price(at, pushed(at)[0]).figure < dear
    assert hard(check_from(at.problem, near.best, at.past)) == []


def test_a_twin_searches_a_model_of_its_own():
    near = the_search(a_disturbed_class())
    twin = near.twin()
    near._fix(near.best, set())
    free = [v for v in twin.soft.built.start.values() if len(set(twin.variables[v.index].domain)) > 1]
    assert len(free) == len(near.soft.built.start)
    assert twin.dice.random() != near.dice.random()


def test_the_model_of_all_lets_everything_move_again():
    near = the_search(a_disturbed_class())
    near._fix(near.best, set())
    whole = near.model_of_all()
    starts = near.soft.built.start.values()
    assert all(len(set(whole.proto.variables[v.index].domain)) > 1 for v in starts)


def test_a_piece_that_is_not_searched_to_its_end_makes_the_next_smaller(monkeypatch):
    near = the_search(a_disturbed_class())
    monkeypatch.setattr(near, "_solve", lambda stand: False)
    for _ in range(20):
        near.search_one()
    assert near.size == LEAST_SIZE
    assert not near.from_wish


@pytest.mark.parametrize("seed", range(12))
def test_pieces_of_a_tiny_class_reach_what_the_whole_model_proves(seed):
    problem = tiny_class(seed)
    try:
        plan = plan_by_hand(problem)
    except NoPlanByHand:
        return
    at = disturbed(problem, plan, KINDS[1 + seed % 3], seed)
    first = pushed(at)
    if not first or not at.coming:
        return
    cp, near = solver_module(), the_search(at, first[0])
    solver = quick_solver(cp, 20.0, 1)
    soft = soft_model(cp, at, first[0])
    assert solver.solve(soft.built.model) == cp.OPTIMAL
    for _ in range(8):
        near.search_one()
    assert near.figure == price(at, soft.answer(solver)).figure
