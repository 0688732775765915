"""Every proposal from lessons and tests, with what is in use."""

from datetime import date

from curriculum.foods import yields
from kitchen.stores.learning.figures import Figure
from kitchen.stores.learning.proposals import allowances, over_issues, usable_shares
from kitchen.stores.learning.usable import Weighed
from tests.builders.learning import a_lesson_food
from tests.builders.recipes import college_recipe

GRAM = 1000
RECIPES = {"R01": college_recipe("R01"), "R05": college_recipe("R05")}
LOST = [a_lesson_food(n, food="unsalted_butter", more={"dropped": 90 * GRAM}) for n in range(4)]


def test_over_issue_is_proposed_for_each_recipe_beside_its_own_or_the_accepted_figure():
    lessons = [a_lesson_food(1), a_lesson_food(2, recipe="R05", given=10_000), *LOST]
    accepted = Figure("over_issue", "soft_wheat_flour", "R05", 15_000, "")
    found = over_issues(lessons, RECIPES, [accepted])
    assert [(each.of, each.food, each.in_use) for each in found] == [
        ("R01", "soft_wheat_flour", 20_000),
        ("R05", "soft_wheat_flour", 15_000),
    ]
    assert found[0].same_food_in == ("Shortcrust paste",)


def test_allowances_are_proposed_where_something_was_lost_or_one_stands():
    quiet = [a_lesson_food(n, food="leek") for n in range(4)]
    found = allowances([*LOST, *quiet], RECIPES, [])
    assert {each.food for each in found} == {"unsalted_butter"}
    stands = Figure("wastage", "", found[0].of, 50, "")
    own = Figure("wastage", "unsalted_butter", found[0].of, 60, "")
    assert allowances(LOST, RECIPES, [stands])[0].in_use == 50
    assert allowances(LOST, RECIPES, [own, stands])[0].in_use == 60
    leek = Figure("wastage", "leek", "", 40, "")
    assert {each.food for each in allowances([*LOST, *quiet], RECIPES, [leek])} == {"leek", "unsalted_butter"}


def test_a_share_is_proposed_for_each_food_that_was_weighed():
    test = Weighed(yields.TestedYield(date(2027, 1, 5), 1000, 700), "Hana")
    assert [
        (each.food, each.amount, each.in_use) for each in usable_shares({"leek": [test]}, {"leek": 750})
    ] == [("leek", 700, 750)]
