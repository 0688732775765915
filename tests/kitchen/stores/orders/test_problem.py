"""An answer is judged without the search that made it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import MISSING, Answer, Ask, Buy, Drop, Wanted, faults
from kitchen.stores.packs import MICRO, PackData

DAY = date(2027, 2, 16)
ASK = Ask(
    (Wanted("cream", 1500, DAY - timedelta(2), DAY, 100),),
    (Drop("dairy", DAY, 450, 100), Drop("dairy", DAY + timedelta(1))),
    (PackData("cream", "dairy", 1000, 200, until_on=DAY), PackData("flour", "mill", 1000, 200)),
)
RIGHT = optimum(ASK)
BUY = RIGHT.buys[0]


def test_a_lawful_answer_has_no_fault_and_says_what_is_paid_and_wasted():
    assert not faults(ASK, RIGHT)
    assert (RIGHT.goods_pence, RIGHT.charges_pence, RIGHT.pence, RIGHT.waste_pence) == (400, 450, 850, 1)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (replace(RIGHT, buys=(replace(BUY, count=1),)), "short"),
        (replace(RIGHT, buys=(replace(BUY, pack=ASK.packs[1]),)), "not bought for"),
        (replace(RIGHT, buys=(replace(BUY, drop=ASK.drops[1]),)), "does not come"),
        (replace(RIGHT, drops=()), "Nobody delivers"),
        (replace(RIGHT, micro=RIGHT.micro - 1), "not what it says"),
        (replace(RIGHT, bound_micro=RIGHT.micro + 1), "not what it says"),
        (replace(RIGHT, buys=(replace(BUY, count=0),)), "not bought"),
        (replace(RIGHT, buys=(replace(BUY, count=3),)), "beyond what will be used"),
        (replace(RIGHT, missing=(0,)), "beyond what will be used"),
    ],
)
def test_each_planted_fault_is_named(wrong, words):
    assert any(words in fault for fault in faults(ASK, wrong))


def test_an_order_below_its_least_is_a_fault():
    drop = replace(ASK.drops[0], least_pence=500)
    ask = replace(ASK, drops=(drop,))
    answer = replace(RIGHT, drops=(drop,), buys=(replace(BUY, drop=drop),))
    assert faults(ask, answer) == [f"dairy does not deliver for so little on {DAY}."]


def test_more_than_is_needed_is_lawful_up_to_what_will_be_used():
    ask = replace(ASK, wanted=(replace(ASK.wanted[0], more_milligrams=1500),))
    three, four = (replace(RIGHT, buys=(replace(BUY, count=count),)) for count in (3, 4))
    found = [[fault for fault in faults(ask, answer) if "beyond" in fault] for answer in (three, four)]
    assert found == [[], ["cream is bought beyond what will be used."]]


def test_a_large_pack_is_lawful_where_it_is_the_cheapest_way_and_not_to_fill_up():
    drop = Drop("dairy", DAY)
    small, large = PackData("cream", "dairy", 1000, 200), PackData("cream", "dairy", 9000, 210)
    want = Wanted("cream", 1500, DAY, DAY)
    for pence, lawful in ((210, True), (500, False)):
        pack = replace(large, pence=pence)
        ask = Ask((want,), (drop,), (small, pack))
        answer = Answer((Buy(0, drop, pack, 1),), (drop,), pence * MICRO, pence * MICRO)
        assert (not faults(ask, answer)) is lawful


def test_what_is_missing_counts_more_than_every_cost():
    answer = Answer((), (), MISSING, MISSING, (0,))
    assert not faults(replace(ASK, wanted=(Wanted("cream", 1, DAY, DAY),)), answer)
    assert (answer.pence, answer.waste_pence, answer.proved) == (0, 0, True)


@pytest.mark.parametrize(
    "wrong", [{"milligrams": 0}, {"more_milligrams": -1}, {"waste_pence_per_kilogram": -1}]
)
def test_nonsense_is_refused(wrong):
    with pytest.raises(ValueError):
        replace(ASK.wanted[0], **wrong)
