"""The integer programme of a week: as cheap as trying everything, and proved where the own search ends."""

from dataclasses import replace

import pytest

from kitchen.stores.orders import optimum as searching
from kitchen.stores.orders import solver
from kitchen.stores.orders.choices import Choices
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Answer, Ask, Drop, Wanted, faults
from kitchen.stores.packs import PackData
from tests.builders.orders import MONDAY, cost_by_trying, tiny_ask, week_ask

pytestmark = pytest.mark.skipif(solver.solver_module() is None, reason="the solver is not installed")
CASES = [ask for ask in map(tiny_ask, range(420)) if ask.wanted]


def nothing_known(ask):
    """An answer that brings nothing, of which nothing is proved."""
    needed = tuple(at for at, want in enumerate(ask.wanted) if want.milligrams)
    return Answer((), (), 10**18, 0, needed)


def by_the_solver(ask):
    return solver.solved(Choices(ask), nothing_known(ask))


def needs_something(ask):
    return any(want.milligrams for want in ask.wanted)


def test_an_answer_costs_what_trying_everything_finds():
    cases = [ask for ask in CASES if needs_something(ask)][:300]
    found = [(ask, by_the_solver(ask)) for ask in cases]
    wrong = [a for ask, a in found if faults(ask, a) or a.micro != cost_by_trying(ask) or not a.proved]
    assert not wrong and len(cases) == 300


def test_planted_a_programme_without_least_orders_is_caught():
    cases = [ask for ask in CASES if needs_something(ask)][:100]
    free = [replace(ask, drops=tuple(replace(drop, least_pence=0) for drop in ask.drops)) for ask in cases]
    found = [(ask, by_the_solver(other)) for ask, other in zip(cases, free, strict=True)]
    assert sum(bool(faults(ask, a)) for ask, a in found) > 10


def test_planted_a_programme_that_may_buy_beyond_what_is_used_is_caught(monkeypatch):
    monkeypatch.setattr(solver, "_within_its_most", lambda *_: True)
    found = [(ask, by_the_solver(ask)) for ask in CASES if needs_something(ask)]
    assert sum(bool(faults(ask, a)) for ask, a in found) > 3


def hard_week():
    """Forty foods of which the own search proves nothing: all four least orders bind."""
    ask = week_ask(40, 6, 4, 2)
    return replace(ask, drops=tuple(replace(drop, least_pence=drop.least_pence * 8) for drop in ask.drops))


def test_a_week_whose_least_orders_all_bind_is_proved(monkeypatch):
    ask = hard_week()
    found = optimum(ask)
    assert found.proved and not faults(ask, found)
    monkeypatch.setattr(searching, "solved", lambda choices, known: known)
    alone = optimum(ask)
    assert not alone.proved and alone.bound_micro <= found.micro < alone.micro


def test_a_large_week_of_which_every_supplier_asks_a_quarter_is_proved():
    """150 foods, six packs, four suppliers; each least order is 27 % of what all foods cost."""
    ask = week_ask(150, 6, 4, 19)
    free = optimum(ask)
    least = int(free.goods_pence * 0.27)
    ask = replace(ask, drops=tuple(replace(drop, least_pence=least) for drop in ask.drops))
    found = optimum(ask)
    assert found.proved and not found.missing and not faults(ask, found)
    assert found.micro > free.micro, "The least orders bind."


def test_at_the_same_cost_there_are_few_packs():
    """A least order of £10.00 is reached by ten bags or by one sack of flour; the use takes either."""
    want = Wanted("flour", 1000, MONDAY, MONDAY, more_milligrams=9000)
    packs = (PackData("flour", "mill", 1000, 100), PackData("flour", "mill", 10_000, 1000))
    ask = Ask((want,), (Drop("mill", MONDAY, 0, 1000),), packs)
    found = by_the_solver(ask)
    assert (found.pence, found.proved, [buy.count for buy in found.buys]) == (1000, True, [1])


def test_without_a_solver_or_without_time_the_answer_known_stands(monkeypatch):
    ask = hard_week()
    known = nothing_known(ask)
    assert solver.solved(Choices(ask), known, work=1e-6) == known
    monkeypatch.setattr(solver, "solver_module", lambda: None)
    assert solver.solved(Choices(ask), known) == known
