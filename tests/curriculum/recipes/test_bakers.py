from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import bakers
from tests.builders.recipes import college_recipe


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


# Of a recipe


def test_each_component_with_flour_is_a_dough_without_its_over_issue():
    found = {component.code: shares for component, shares in bakers.doughs(college_recipe("R06"))}
    assert set(found) == {"A"}
    assert found["A"]["fresh_yeast"] == 3 and sum(found["A"].values()) == 180


def test_a_food_on_two_lines_counts_once():
    ((component, shares), *_) = bakers.doughs(college_recipe("V3"))
    assert component.code == "A" and shares["water"] == Fraction(250 * 100, 140)


def test_a_recipe_without_flour_has_no_dough():
    assert bakers.doughs(college_recipe("R09")) == []
