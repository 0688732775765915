from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import bakers


def test_flour_is_one_hundred_and_two_flours_are_added():
    shares = bakers.percentages({"strong": 750, "rye": 250, "salt": 20}, frozenset({"strong", "rye"}))
    assert shares == {"strong": 75, "rye": 25, "salt": 2}


def test_to_percentages_and_back_is_the_start():
    dough = {"flour": Fraction(500), "milk": Fraction(300), "yeast": Fraction(15), "salt": Fraction(10)}
    shares = bakers.percentages(dough, frozenset({"flour"}))
    assert bakers.from_total(825, shares) == dough
    assert bakers.from_one("salt", 10, shares) == dough


def test_a_dough_without_flour_is_refused():
    with pytest.raises(RuleBroken):
        bakers.percentages({"water": 100}, frozenset({"flour"}))
