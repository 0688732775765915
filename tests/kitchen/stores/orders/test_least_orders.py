"""Least orders that bind: exact within their budget, and honest beyond it."""

from kitchen.stores.orders import least_orders
from kitchen.stores.orders.choices import NEVER, Choices
from kitchen.stores.orders.least_orders import LeastOrders
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Ask, Drop, Wanted, faults
from kitchen.stores.packs import MICRO, PackData
from tests.builders.orders import MONDAY, cost_by_trying, tiny_ask

ASK = Ask(
    (Wanted("flour", 1000, MONDAY, MONDAY),),
    (Drop("mill", MONDAY, 100, 1000),),
    (PackData("flour", "mill", 1000, 300), PackData("flour", "mill", 2000, 350)),
)


def test_what_is_missing_is_bought_as_extra_packs_at_least_cost():
    settled = LeastOrders(Choices(ASK)).settle(1, 10**12)
    assert settled.micro == settled.bound_micro == (100 + 1000) * MICRO
    assert sum(item.pence * count for _, item, count in settled.picks) == 1000


def test_a_set_that_costs_as_much_as_is_known_already_is_not_settled():
    orders = LeastOrders(Choices(ASK))
    assert orders.settle(1, 1100 * MICRO) is None
    assert orders.settle(1, 1100 * MICRO + 1) is not None


def test_a_delivery_of_free_packs_never_reaches_a_least_order():
    ask = Ask(ASK.wanted, ASK.drops, (PackData("flour", "mill", 1000, 0),))
    assert LeastOrders(Choices(ask)).settle(1, NEVER) is None


def test_without_a_budget_the_answer_is_lawful_its_bound_holds_and_it_claims_no_more(monkeypatch):
    """The proof is withdrawn, never faked: in some cases nothing is proved then."""
    monkeypatch.setattr(least_orders, "MOST_BEGINNINGS", 0)
    unproved = 0
    for number in range(150):
        ask = tiny_ask(number)
        if ask.wanted:
            answer, tried = optimum(ask), cost_by_trying(ask)
            assert not faults(ask, answer) and answer.bound_micro <= tried <= answer.micro
            unproved += not answer.proved
    assert unproved > 5
