"""What is bought for a week costs the least: the same as trying everything, on hundreds of small cases."""

from dataclasses import replace
from datetime import timedelta

import pytest

from kitchen.stores.orders import optimum as searching
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Answer, Ask, Drop, Wanted, faults
from kitchen.stores.packs import MICRO, PackData
from tests.builders.orders import MONDAY, cost_by_trying, tiny_ask, week_ask

CASES = [ask for ask in map(tiny_ask, range(420)) if ask.wanted]


def is_right(ask: Ask, answer: Answer, tried: int) -> bool:
    """Lawful, as cheap as trying everything, and proved to be so."""
    return not faults(ask, answer) and answer.micro == tried and answer.proved


def test_an_answer_costs_what_trying_everything_finds_and_says_that_it_is_proved():
    wrong = [ask for ask in CASES if not is_right(ask, optimum(ask), cost_by_trying(ask))]
    assert not wrong and len(CASES) > 200


def test_least_orders_bind_in_many_of_these_cases():
    """Otherwise the test above would say nothing of them."""
    free = [replace(ask, drops=tuple(replace(drop, least_pence=0) for drop in ask.drops)) for ask in CASES]
    assert sum(optimum(a).micro < optimum(b).micro for a, b in zip(free, CASES, strict=True)) > 40


def test_planted_each_food_alone_without_least_orders_is_caught():
    """Planted: a search that forgets the least orders breaks the law it is judged by."""
    forgetful = [
        optimum(replace(ask, drops=tuple(replace(drop, least_pence=0) for drop in ask.drops)))
        for ask in CASES
    ]
    wrong = [
        not is_right(ask, answer, cost_by_trying(ask))
        for ask, answer in zip(CASES[:100], forgetful, strict=False)
    ]
    assert sum(wrong) > 20


def test_planted_an_answer_a_penny_dear_is_caught():
    ask = CASES[0]
    right = optimum(ask)
    dear = replace(right, micro=right.micro + MICRO)
    assert not is_right(ask, dear, cost_by_trying(ask))


def test_in_many_of_these_cases_something_only_fills_up_or_is_left_out():
    """Otherwise the test above would say nothing of them."""
    answers = [optimum(ask) for ask in CASES]
    filled = [
        any(not ask.wanted[buy.wanted].milligrams for buy in a.buys)
        for ask, a in zip(CASES, answers, strict=True)
    ]
    assert sum(filled) > 5 and sum(bool(answer.missing) for answer in answers) > 20


def test_planted_filling_up_with_whatever_costs_least_is_caught():
    """Planted: a search that takes every food as used for ever breaks the law it is judged by."""
    careless = [
        optimum(replace(ask, wanted=tuple(replace(want, more_milligrams=10**6) for want in ask.wanted)))
        for ask in CASES
    ]
    wrong = [
        any("beyond what will be used" in fault for fault in faults(ask, answer))
        for ask, answer in zip(CASES, careless, strict=True)
    ]
    assert sum(wrong) > 40


def test_the_dearer_food_comes_from_the_dairy_so_that_its_least_order_is_reached():
    butter = [PackData("butter", "dairy", 1000, 900)]
    flour = [PackData("flour", "mill", 1000, 800), PackData("flour", "dairy", 1000, 850)]
    wanted = (Wanted("butter", 1000, MONDAY, MONDAY, 0, 1000), Wanted("flour", 1000, MONDAY, MONDAY, 0, 1000))

    def pence(least):
        drops = (Drop("dairy", MONDAY, 0, least), Drop("mill", MONDAY))
        return optimum(Ask(wanted, drops, (*butter, *flour))).pence

    assert [pence(least) for least in (900, 1700, 1750)] == [1700, 1750, 1750]
    assert pence(1800) == 2600


def test_a_food_is_missing_where_its_only_supplier_takes_no_order_for_so_little():
    """The mill wants £20.00; of its flour £8.00 are needed and £8.00 more are used. Butter still comes."""
    packs = (PackData("butter", "dairy", 1000, 900), PackData("flour", "mill", 1000, 800))
    wanted = (Wanted("butter", 1000, MONDAY, MONDAY), Wanted("flour", 1000, MONDAY, MONDAY, 0, 1000))

    def answered(least):
        ask = Ask(wanted, (Drop("dairy", MONDAY), Drop("mill", MONDAY, 0, least)), packs)
        answer = optimum(ask)
        assert not faults(ask, answer) and answer.proved
        return answer.missing, answer.pence, answer.waste_pence

    assert (answered(2000), answered(1600)) == (((1,), 900, 0), ((), 2500, 0))


def test_nothing_is_bought_beyond_its_use_where_another_supplier_has_it():
    """Filling the mill up would need a sack that nobody uses; the shop sells the flour dearer."""
    packs = (
        PackData("flour", "mill", 1000, 100),
        PackData("flour", "shop", 1000, 400),
        PackData("salt", "mill", 9000, 500),
    )
    wanted = (Wanted("flour", 1000, MONDAY, MONDAY),)
    drops = (Drop("mill", MONDAY, 0, 300), Drop("shop", MONDAY))
    assert optimum(Ask(wanted, drops, packs)).pence == 400


def test_a_delivery_is_paid_only_when_it_saves_more():
    packs = (PackData("flour", "near", 1000, 150), PackData("flour", "far", 1000, 100))
    drops = (Drop("near", MONDAY), Drop("far", MONDAY, 450))

    def supplier(count):
        wanted = (Wanted("flour", count * 1000, MONDAY, MONDAY),)
        return {buy.pack.supplier for buy in optimum(Ask(wanted, drops, packs)).buys}

    assert (supplier(1), supplier(10)) == ({"near"}, {"far"})


def test_what_does_not_keep_is_priced_and_what_keeps_is_not():
    packs = tuple(PackData("cream", "dairy", size, pence) for size, pence in ((10**6, 100), (5 * 10**6, 190)))
    for waste, bought in ((0, 5 * 10**6), (50, 10**6)):
        wanted = (Wanted("cream", 2 * 10**6, MONDAY, MONDAY, waste),)
        answer = optimum(Ask(wanted, (Drop("dairy", MONDAY),), packs))
        assert {buy.pack.milligrams for buy in answer.buys} == {bought}


def test_of_two_deliveries_at_one_price_the_fresher_one_brings_it():
    days = [MONDAY, MONDAY + timedelta(1), MONDAY + timedelta(2)]
    wanted = (Wanted("cream", 1000, days[0], days[1]),)
    packs = (PackData("cream", "dairy", 1000, 100),)
    answer = optimum(Ask(wanted, tuple(Drop("dairy", day) for day in days), packs))
    assert [buy.drop.on for buy in answer.buys] == [days[1]]


def test_nothing_wanted_costs_nothing_and_nothing_to_be_had_is_refused():
    assert optimum(Ask((), (), ())).pence == 0
    with pytest.raises(ValueError):
        optimum(Ask((Wanted("cream", 1, MONDAY, MONDAY),), (), ()))


def test_a_search_that_may_look_at_nothing_says_that_it_is_no_proof(monkeypatch):
    monkeypatch.setattr(searching, "solved", lambda choices, known: known)
    ask = week_ask(5, 3, 3)
    cut = optimum(ask, most_sets=1)
    assert not faults(ask, cut) and not cut.proved and cut.bound_micro <= optimum(ask).micro <= cut.micro


@pytest.mark.parametrize("number", [1, 2])
def test_a_large_week_is_proved(number):
    ask = week_ask(60, 6, 4, number)
    answer = optimum(ask)
    assert answer.proved and not faults(ask, answer)
