"""An answer is judged without the search that made it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Ask, Drop, Wanted, faults
from kitchen.stores.packs import PackData

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
    ],
)
def test_each_planted_fault_is_named(wrong, words):
    assert any(words in fault for fault in faults(ASK, wrong))


def test_an_order_below_its_least_is_a_fault():
    drop = replace(ASK.drops[0], least_pence=500)
    ask = replace(ASK, drops=(drop,))
    answer = replace(RIGHT, drops=(drop,), buys=(replace(BUY, drop=drop),))
    assert faults(ask, answer) == [f"dairy does not deliver for so little on {DAY}."]


@pytest.mark.parametrize("wrong", [{"milligrams": 0}, {"waste_pence_per_kilogram": -1}])
def test_nonsense_is_refused(wrong):
    with pytest.raises(ValueError):
        replace(ASK.wanted[0], **wrong)
