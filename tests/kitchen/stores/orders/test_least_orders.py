"""Least orders that bind: exact within their budget, and honest beyond it."""

from dataclasses import replace

from kitchen.stores.orders import optimum as searching
from kitchen.stores.orders.choices import Choices
from kitchen.stores.orders.least_orders import LeastOrders
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Ask, Drop, Wanted, faults
from kitchen.stores.packs import MICRO, PackData
from tests.builders.orders import MONDAY, cost_by_trying, tiny_ask

ASK = Ask(
    (Wanted("flour", 1000, MONDAY, MONDAY, 0, 5000),),
    (Drop("mill", MONDAY, 100, 1000),),
    (PackData("flour", "mill", 1000, 300), PackData("flour", "mill", 2000, 350)),
)


def test_what_is_missing_is_bought_as_extra_packs_at_least_cost():
    settled = LeastOrders(Choices(ASK)).settle(1, 10**12)
    assert settled.micro == settled.bound_micro == (100 + 1000) * MICRO
    assert sum(item.pence * count for _, item, count in settled.picks) == 1000


def test_packs_beyond_what_will_be_used_fill_up_nothing():
    """Three packs of 1,000 g come to £9.00; the fourth would not be used."""
    for more, found in ((2000, None), (3000, 1300 * MICRO)):
        ask = replace(ASK, wanted=(replace(ASK.wanted[0], more_milligrams=more),), packs=ASK.packs[:1])
        settled = LeastOrders(Choices(ask)).settle(1, 10**12)
        assert (settled and settled.micro) == found


def test_foods_that_are_not_needed_fill_up_by_the_sum_that_comes_nearest():
    wanted = (
        *ASK.wanted,
        Wanted("sugar", 0, MONDAY, MONDAY, 0, 2000),
        Wanted("salt", 0, MONDAY, MONDAY, 0, 1),
    )
    packs = (*ASK.packs[:1], PackData("sugar", "mill", 1000, 360), PackData("salt", "mill", 1000, 1))
    ask = Ask((replace(wanted[0], more_milligrams=0), *wanted[1:]), ASK.drops, packs)
    settled = LeastOrders(Choices(ask)).settle(1, 10**12)
    assert settled.micro == settled.bound_micro == (100 + 300 + 720) * MICRO
    assert [(wanted, count) for wanted, _, count in settled.picks] == [(0, 1), (1, 1), (1, 1)]


def test_a_set_that_costs_as_much_as_is_known_already_is_not_settled():
    orders = LeastOrders(Choices(ASK))
    assert orders.settle(1, 1100 * MICRO) is None
    assert orders.settle(1, 1100 * MICRO + 1) is not None


def test_a_delivery_of_free_packs_never_reaches_a_least_order():
    ask = Ask(ASK.wanted, ASK.drops, (PackData("flour", "mill", 1000, 0),))
    assert LeastOrders(Choices(ask)).settle(1, 10**12) is None


def test_without_a_budget_the_answer_is_lawful_its_bound_holds_and_it_claims_no_more(monkeypatch):
    """The proof is withdrawn, never faked: in some cases nothing is proved then."""
    monkeypatch.setattr(searching, "beginnings", lambda: 0)
    monkeypatch.setattr(searching, "solved", lambda choices, known: known)
    unproved = 0
    for number in range(150):
        ask = tiny_ask(number)
        if ask.wanted:
            answer, tried = optimum(ask), cost_by_trying(ask)
            assert not faults(ask, answer) and answer.bound_micro <= tried <= answer.micro
            unproved += not answer.proved
    assert unproved > 5
