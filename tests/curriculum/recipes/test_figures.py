from dataclasses import replace

import pytest

from curriculum.recipes.actions import reckon_figures
from curriculum.recipes.figures import figures_of, oven_minutes
from curriculum.recipes.models import Version
from curriculum.recipes.queries import found
from tests.builders.book import a_book
from tests.builders.college_figures import DISHES
from tests.builders.recipes import college_recipe


def test_oven_minutes_are_the_stays_in_an_oven_alone():
    recipe = college_recipe("R01")
    stays = [stay for step in recipe.steps for stay in step.stays]
    assert oven_minutes(recipe) == sum(stay.minutes for stay in stays if stay.appliance_kind == "oven") > 0
    cold = replace(recipe, steps=tuple(replace(step, stays=()) for step in recipe.steps))
    assert oven_minutes(cold) == 0


def test_a_recipe_with_a_food_without_a_price_has_no_cost_and_its_times():
    figures = figures_of(college_recipe("R01"), {})
    assert figures.portion_pence is None and figures.one_cook_minutes > figures.work_minutes > 0


@pytest.mark.django_db
def test_approval_keeps_the_figures_and_they_are_reckoned_again_at_another_price():
    version = a_book("R01")["R01"]
    kept = Version.objects.get(pk=version.pk)
    assert kept.one_cook_minutes == DISHES["R01"].one_cook_minutes
    assert kept.costed_on is not None and kept.portion_pence > 0
    Version.objects.update(portion_pence=None, one_cook_minutes=None, costed_on=None)
    assert reckon_figures(by=None) == 1
    again = Version.objects.get(pk=version.pk)
    assert (again.portion_pence, again.one_cook_minutes) == (kept.portion_pence, kept.one_cook_minutes)


@pytest.mark.django_db
def test_the_book_is_narrowed_by_figures_and_unknown_ones_are_not_found():
    version = Version.objects.get(pk=a_book("R01", "R02")["R01"].pk)
    bound = {"one_cook_minutes": version.one_cook_minutes}
    assert version in found(most=bound)
    assert version not in found(most={"one_cook_minutes": version.one_cook_minutes - 1})
    Version.objects.filter(pk=version.pk).update(one_cook_minutes=None)
    assert version not in found(most=bound)
    assert list(found(sort="one_cook_minutes"))[-1] == version


@pytest.mark.django_db
def test_the_book_is_narrowed_by_a_food():
    a_book("R01", "R02")
    food = college_recipe("R02").components[0].lines[0].food
    holding = {code for code in ("R01", "R02") if food in {f.code for f in college_recipe(code).foods}}
    assert {version.recipe.code for version in found(food=food)} == holding
