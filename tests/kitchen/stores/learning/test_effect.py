"""What a figure would change in lessons to come."""

from datetime import date

from curriculum.foods.costs import PackPrice
from kitchen.stores.learning.effect import Coming, changes
from kitchen.stores.learning.figures import Figure
from tests.builders.recipes import college_recipe

DUSTING = Figure("over_issue", "soft_wheat_flour", "R01", 30_000, "")
PRICES = {"soft_wheat_flour": PackPrice("soft_wheat_flour", 1_000_000, 90)}


def coming(code="R01", count=9):
    return [Coming("LESSON1", "Quiche", date(2027, 2, 16), "PC2-A", 8, ((college_recipe(code), count),))]


def test_nine_kits_of_ten_grams_more_are_ninety_grams_and_eight_pence():
    (change,) = changes(coming(), "soft_wheat_flour", [], DUSTING, PRICES)
    assert (change.milligrams, change.pence) == (90_000, 8)


def test_a_figure_in_the_place_of_a_higher_one_takes_less():
    before = Figure("over_issue", "soft_wheat_flour", "R01", 40_000, "")
    (change,) = changes(coming(), "soft_wheat_flour", [before], DUSTING, PRICES)
    assert (change.milligrams, change.pence) == (-90_000, -8)


def test_a_lesson_of_another_recipe_is_not_changed():
    assert changes(coming("R05"), "soft_wheat_flour", [], DUSTING, PRICES) == ()


def test_an_allowance_is_added_to_what_the_kits_take():
    allowance = Figure("wastage", "soft_wheat_flour", "", 50, "")
    (change,) = changes(coming(count=1), "soft_wheat_flour", [], allowance, {})
    assert (change.milligrams, change.pence) == (14_000, 0)
