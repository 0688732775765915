import uuid

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import actions, queries
from curriculum.recipes.models import Recipe, Version
from curriculum.recipes.variants.actions import make_variant
from curriculum.recipes.variants.avoided import affected
from curriculum.recipes.variants.making import LineChange
from curriculum.recipes.variants.queries import foods_by_code, ordinary_of
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def quiche():
    return a_book("R01")["R01"]


def _changes(version, food="rice_flour"):
    return tuple(
        LineChange(each.component.code, each.line.position, food, each.line.milligrams)
        for each in affected(queries.recipe_data(version), "gluten")
    )


def _made(version, changes=None, **more):
    said = {"without": "gluten", "title": "Quiche, no gluten", "code": "R01-no-gluten"} | more
    return make_variant(
        version=version,
        changes=_changes(version) if changes is None else changes,
        techniques_lost=("rubbing_in",),
        by=a_person("odile"),
        **said,
    )


def test_a_variant_is_a_draft_that_says_what_it_is_without_and_of_what(quiche):
    made = _made(quiche)
    recipe = queries.recipe_data(made)
    assert (made.state, made.made_from, recipe.variant_of) == ("draft", quiche, "R01")
    assert recipe.free_from == ("gluten",) and recipe.techniques_lost == ("rubbing_in",)
    assert affected(recipe, "gluten") == () and ordinary_of(made) == quiche


@pytest.mark.parametrize("food", ["soft_wheat_flour", "rye_flour_medium"])
def test_a_line_that_still_has_it_is_named_and_nothing_is_written(quiche, food):
    for changes in (_changes(quiche, food), _changes(quiche)[:1]):
        with pytest.raises(RuleBroken) as refused:
            _made(quiche, changes)
        assert refused.value.code == "still_has_it" and "flour" in refused.value.message
    assert Recipe.objects.count() == 1


def test_a_variant_sent_twice_is_written_once(quiche):
    key = uuid.uuid4()
    assert _made(quiche, key=key) == _made(quiche, key=key)
    assert Version.objects.count() == 2


def test_neither_a_draft_nor_a_variant_is_made_a_variant_of_and_a_code_is_used_once(quiche):
    made = _made(quiche)
    for version, code in ((made, "x"), (actions.revise(version=quiche, by=a_person("odile")), "x")):
        with pytest.raises(RuleBroken) as refused:
            _made(version, (), code=code)
        assert refused.value.code == "wrong_state"
    with pytest.raises(RuleBroken) as refused:
        _made(quiche)
    assert refused.value.facts["field"] == "code"


def test_an_approved_variant_is_no_ordinary_recipe():
    variant = a_book("R01", "V1")["V1"]
    with pytest.raises(RuleBroken) as refused:
        _made(variant, ())
    assert refused.value.code == "variant_of_a_variant"


def test_foods_to_choose_from_take_three_queries(quiche, django_assert_num_queries):
    with django_assert_num_queries(3):
        assert len(foods_by_code()) > 100
