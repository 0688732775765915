from dataclasses import replace
from datetime import date

import pytest
from django.db import IntegrityError, transaction

from curriculum.recipes import actions
from curriculum.recipes.figures import figures_of, oven_minutes
from curriculum.recipes.models import Version
from curriculum.recipes.queries import found
from tests.builders.book import a_book, a_person
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


def test_a_draft_that_cannot_be_weighed_out_yet_has_times_and_no_cost():
    recipe = college_recipe("R02")
    without_measures = replace(recipe.tins[0], depth_mm=None, diameter_mm=None)
    figures = figures_of(replace(recipe, tins=(without_measures, *recipe.tins[1:]), portions_stated=0), {})
    assert figures.portion_pence is None and figures.oven_minutes > 0


@pytest.mark.django_db
def test_approval_keeps_the_figures_as_of_its_day():
    version = a_book("R01")["R01"]
    kept = Version.objects.get(pk=version.pk)
    assert kept.one_cook_minutes == DISHES["R01"].one_cook_minutes
    assert kept.costed_on == date(2027, 2, 16) and kept.portion_pence > 0


@pytest.mark.django_db
def test_a_draft_has_its_figures_from_the_first_and_they_follow_every_change():
    a_book("R02")
    draft = actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))
    kept = Version.objects.get(pk=draft.pk)
    assert kept.one_cook_minutes == DISHES["R01"].one_cook_minutes and kept.portion_pence > 0
    assert kept in found(drafts=True, most={"portion_pence": kept.portion_pence})
    actions.remove_component(version=draft, code="B", by=a_person("odile"))
    assert Version.objects.get(pk=draft.pk).portion_pence < kept.portion_pence


@pytest.mark.django_db
def test_a_cost_without_its_day_and_a_day_without_a_cost_cannot_be_kept():
    version = a_book("R01")["R01"]
    for half in ({"costed_on": None}, {"portion_pence": None}):
        with pytest.raises(IntegrityError, match="recipes_a_cost_has_its_day"), transaction.atomic():
            Version.objects.filter(pk=version.pk).update(**half)
    Version.objects.filter(pk=version.pk).update(costed_on=None, portion_pence=None)


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
