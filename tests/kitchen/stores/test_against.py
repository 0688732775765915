"""One rule for what a label says against a kit: what it is free from, and what its learners avoid."""

from dataclasses import replace
from datetime import date

import pytest

from curriculum.foods.data import FoodData
from kitchen.lessons.diets import Avoids
from kitchen.stores.against import Named, avoided_food, blocked_why, may_contain, named
from tests.builders.recipes import college_recipe

READ = date(2027, 2, 1)


def food(**more) -> FoodData:
    return FoodData(code="blend", name="Flour blend", label_read_on=READ, **more)


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ({}, Named()),
        ({"contains": ("wheat",)}, Named(("wheat",))),
        ({"may_contain": ("wheat", "milk")}, Named((), ("wheat",))),
        ({"contains": ("rye",), "may_contain": ("rye", "barley")}, Named(("rye",), ("barley",))),
        ({"contains": ("egg",)}, Named()),
    ],
)
def test_what_is_contained_and_what_only_perhaps_are_told_apart(said, found):
    assert named(food(**said), ("gluten",)) == found


def test_of_one_food_what_somebody_avoids_is_said_with_the_reason():
    soya = food(contains=("soya",))
    assert avoided_food(soya, soya, [(Avoids(kind="egg"),), (Avoids(kind="soya"),)]) == (
        "avoids soya: contains soya"
    )
    assert avoided_food(soya, soya, [(Avoids(kind="egg"),), ()]) == ""
    assert avoided_food(food(may_contain=("soya",)), soya, [()]) == ""


def labelled(code: str, **labels):
    """A recipe of the college with every label read, and some read as said here."""
    recipe = college_recipe(code)
    foods = tuple(
        replace(each, **({"label_read_on": each.label_read_on or READ} | labels.get(each.code, {})))
        for each in recipe.foods
    )
    return replace(recipe, foods=foods)


class TestAKit:
    """The quiche, ordinary (R01) and without gluten (V1)."""

    def test_nothing_stops_it_for_learners_who_avoid_nothing_in_it(self):
        assert blocked_why(labelled("R01"), [(), (Avoids(kind="fish"),)]) == ""

    def test_a_label_that_names_what_a_learner_avoids_stops_it_with_food_and_kind(self):
        recipe = labelled("R01", unsalted_butter={"contains": ("milk", "soya")})
        why = blocked_why(recipe, [(), (Avoids(kind="soya"),)])
        assert why.startswith("Unsalted butter") and "contains soya" in why and "avoids soya" in why
        assert blocked_why(recipe, [()]) == ""

    def test_what_it_may_contain_stops_a_kit_made_without_it_until_somebody_lets_it_go(self):
        recipe = labelled("V1", gluten_free_flour_blend={"may_contain": ("wheat",)})
        assert "may contain wheat" in blocked_why(recipe)
        assert blocked_why(recipe, may_go=True) == ""
        assert may_contain(recipe) == (("Gluten-free flour blend (rice, potato, maize)", "wheat"),)

    def test_what_it_contains_stops_it_whatever_somebody_wrote(self):
        recipe = labelled("V1", gluten_free_flour_blend={"contains": ("wheat",)})
        assert "says that it contains wheat" in blocked_why(recipe, may_go=True)

    def test_an_unread_label_comes_first(self):
        recipe = labelled("V1", gluten_free_flour_blend={"contains": ("wheat",), "label_read_on": None})
        assert blocked_why(recipe).startswith("No label read")
