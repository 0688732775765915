from datetime import date
from fractions import Fraction

import pytest

from curriculum.foods import yields


def test_three_hundred_grams_of_trimmed_leek_are_four_hundred_as_bought():
    assert yields.as_bought(300_000, 750) == 400_000


@pytest.mark.parametrize("share", [1, 430, 550, 970, 1000])
def test_as_bought_and_back_is_the_start(share):
    assert yields.usable(yields.as_bought(Fraction(123_457), share), share) == 123_457


@pytest.mark.parametrize("share", [0, -1, 1001])
def test_a_share_that_is_none_is_refused(share):
    with pytest.raises(ValueError):
        yields.as_bought(100, share)


def test_own_tests_are_joined_by_weight_and_not_by_count():
    tests = (
        yields.TestedYield(date(2027, 1, 5), 1_000_000, 800_000),
        yields.TestedYield(date(2027, 1, 6), 3_000_000, 1_800_000),
    )
    assert yields.tested_per_mille(tests) == 650
    assert yields.tested_per_mille(()) is None


def test_a_test_that_gains_weight_is_refused():
    with pytest.raises(ValueError):
        yields.TestedYield(date(2027, 1, 5), 100, 101)
