"""Accepted figures as kits and requisitions read them."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.foods.models import Food
from curriculum.recipes.models import Recipe
from curriculum.techniques.models import Technique
from kitchen.stores.learning.kept.queries import figures_for, source_of
from kitchen.stores.learning.models import KeptFigure
from tests.builders.book import a_person
from tests.builders.held_lessons import FLOUR, a_quiche
from tests.builders.recipes import college_recipe

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def kept(kind, food=FLOUR, recipe=None, technique=None, **more):
    said = {"amount": 70, "by": a_person("hana", "stores"), "count": 6} | more
    return KeptFigure.objects.create(
        kind=kind,
        food=Food.objects.get(code=food) if food else None,
        recipe=Recipe.objects.get(code=recipe) if recipe else None,
        technique=Technique.objects.get(code=technique) if technique else None,
        **said,
    )


def found(*codes):
    return figures_for(a_quiche(-1), [college_recipe(code) for code in codes])


def test_over_issue_of_another_recipe_and_a_food_of_another_recipe_are_not_read():
    kept("over_issue", recipe="R03")
    kept("wastage", "desiccated_coconut")
    assert found("R01") == ()


def test_a_variant_reads_the_over_issue_of_the_ordinary_recipe():
    kept("over_issue", recipe="R01")
    assert [each.of for each in found("V2")] == ["R01"]


def test_an_allowance_of_a_technique_is_read_for_every_recipe():
    kept("wastage", "", technique="rubbing_in")
    assert [(each.food, each.of) for each in found("R03")] == [("", "rubbing_in")]


def test_what_is_declined_or_taken_back_is_not_read():
    kept("over_issue", recipe="R01", state="declined")
    assert found("R01") == ()


def test_the_source_says_from_what_it_was_learned_and_of_one_by_hand_who_wrote_it():
    assert source_of(kept("over_issue", recipe="R01")) == "learned from six lessons"
    assert source_of(kept("usable", "leek", count=1)) == "learned from one yield test"
    assert source_of(kept("wastage", "leek", count=0)).startswith("written by ")


def test_three_figures_are_read_in_as_many_queries_as_one():
    def queries():
        with CaptureQueriesContext(connection) as seen:
            found_here = figures_for(lesson, recipes)
        return len(seen), len(found_here)

    lesson, recipes = a_quiche(-1), [college_recipe("R01")]
    kept("over_issue", recipe="R01")
    one = queries()
    kept("wastage", "leek")
    kept("usable", "leek")
    assert (one, queries()) == ((2, 1), (2, 3))
