"""The evenings of the files that were held: what they say can be booked and written down."""

from datetime import date

from kitchen.stores.learning.robust import ENOUGH_LESSONS, ENOUGH_TESTS
from kitchen.stores.moves import reasons
from tests.builders.recipes import college_recipe, fixture

HELD, STORES = fixture("held.json"), fixture("stores.json")


def test_there_are_enough_evenings_and_tests_to_propose_something():
    assert len(HELD["evenings"]) >= ENOUGH_LESSONS
    assert len(HELD["yield_tests"]) >= ENOUGH_TESTS


def test_every_evening_is_over_before_the_stock_of_the_term_comes_in():
    first = min(
        date.fromisoformat(lot["received_on"]) for lot in STORES["lots"] if lot["food"] != "white_fondant"
    )
    assert all(date.fromisoformat(each["date"]) < first for each in HELD["evenings"])


def test_what_was_given_and_thrown_away_is_food_of_the_dish_for_reasons_that_are_listed():
    foods = {food.code for food in college_recipe(HELD["lesson"]["dish"]).foods}
    for listed, rows in ((reasons.MORE, "given"), (reasons.WASTE, "back")):
        for each in (row for evening in HELD["evenings"] for row in evening[rows]):
            assert each["food"] in foods and each["reason"] in dict(listed)


def test_those_who_cook_avoid_nothing():
    avoids = {each["code"]: each.get("avoids") for each in fixture("college.json")["learners"]}
    placed = [code for place in HELD["lesson"]["places"] for code in place["learners"]]
    assert len(set(placed)) == len(placed) and not any(avoids[code] for code in placed)
