import uuid
from dataclasses import replace

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import queries
from curriculum.recipes.actions import revise
from curriculum.recipes.copying.actions import copy_recipe
from curriculum.recipes.copying.queries import copied_from, taken_codes
from curriculum.recipes.models import Recipe, Version
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db


def _copied(version, code="leek-tart", **more):
    return copy_recipe(version=version, title="Leek tart", code=code, by=a_person("odile"), **more)


def test_a_copy_is_a_draft_of_its_own_that_remembers_where_it_is_from():
    version = a_book("R01")["R01"]
    made = _copied(version)
    assert (made.state, made.number, made.made_from) == ("draft", 1, version)
    assert copied_from(made) == version
    before, after = queries.recipe_data(version), queries.recipe_data(made)
    assert (after.code, after.title) == ("leek-tart", "Leek tart")
    assert replace(after, code="R01", title=before.title, foods=()).components == before.components
    assert len(after.steps) == len(before.steps) and after.tins == before.tins


def test_a_copy_of_a_variant_is_no_variant_but_stays_without_what_it_leaves_out():
    versions = a_book("R01", "V1")
    made = queries.recipe_data(_copied(versions["V1"]))
    assert made.variant_of is None and made.free_from == ("gluten",) and made.techniques_lost == ()


@pytest.mark.parametrize("code", ["R01", "r01"])
def test_a_code_that_is_taken_is_refused_at_its_field_and_nothing_is_made(code):
    version = a_book("R01")["R01"]
    with pytest.raises(RuleBroken) as refused:
        _copied(version, code)
    assert refused.value.facts["field"] == "code" and "Leek" in refused.value.message
    assert Recipe.objects.count() == 1


def test_a_copy_sent_twice_is_made_once():
    version, key = a_book("R01")["R01"], uuid.uuid4()
    assert _copied(version, key=key) == _copied(version, key=key)
    assert Version.objects.count() == 2 and taken_codes() == {"R01", "leek-tart"}


def test_a_revision_is_no_copy():
    version = a_book("R01")["R01"]
    assert copied_from(revise(version=version, by=a_person("odile"))) is None
