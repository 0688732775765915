import uuid

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import actions, queries
from curriculum.recipes.data import ComponentData, TinData
from curriculum.recipes.editing import CODES
from curriculum.recipes.opened.parts import fingerprint
from curriculum.recipes.writing.actions import add_component, add_tin, move_component, move_line, put_tin
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db

GLAZE = ComponentData("", "Glaze", "portions", ())
TIN = TinData("flan_tin", 1, "round", diameter_mm=200, depth_mm=30)


@pytest.fixture
def odile():
    return a_person("odile")


@pytest.fixture
def draft(odile):
    a_book()
    return actions.write_recipe(recipe=college_recipe("R01"), by=odile)


def test_a_component_sent_twice_is_added_once_under_a_free_letter(draft, odile):
    key = uuid.uuid4()
    letters = [add_component(version=draft, component=GLAZE, by=odile, key=key) for _ in range(2)]
    codes = [each.code for each in queries.recipe_data(draft).components]
    assert letters[0] == letters[1] == codes[-1] and len(codes) == len(set(codes))
    assert len(codes) == len(college_recipe("R01").components) + 1


def test_when_all_letters_are_taken_nothing_is_added(draft, odile):
    taken = [each.code for each in queries.recipe_data(draft).components]
    for _ in set(CODES) - {*taken}:
        add_component(version=draft, component=GLAZE, by=odile)
    full = queries.recipe_data(draft)
    with pytest.raises(RuleBroken) as refused:
        add_component(version=draft, component=GLAZE, by=odile)
    assert refused.value.code == "too_many_components"
    assert queries.recipe_data(draft) == full


def test_a_line_and_a_component_move_and_stay_at_their_ends(draft, odile):
    foods = [line.food for line in queries.recipe_data(draft).components[0].lines]
    move_line(version=draft, code="A", position=1, places=99, by=odile)
    lines = queries.recipe_data(draft).components[0].lines
    assert [line.food for line in lines] == [*foods[1:], foods[0]]
    assert [line.position for line in lines] == list(range(1, len(foods) + 1))
    move_component(version=draft, code="A", places=99, by=odile)
    assert queries.recipe_data(draft).components[-1].code == "A"


def test_tins_are_added_once_written_and_taken_out(draft, odile):
    key, before = uuid.uuid4(), queries.recipe_data(draft).tins
    for _ in range(2):
        add_tin(version=draft, tin=TIN, by=odile, key=key)
    assert queries.recipe_data(draft).tins == (*before, TIN)
    place = len(before) + 1
    put_tin(version=draft, place=place, tin=None, by=odile)
    assert queries.recipe_data(draft).tins == before


def test_a_tin_is_not_written_over_tins_that_were_not_seen(draft, odile):
    seen = fingerprint(queries.recipe_data(draft).tins)
    add_tin(version=draft, tin=TIN, by=a_person("marek"))
    with pytest.raises(RuleBroken, match="Marek changed version 1"):
        put_tin(version=draft, place=1, tin=None, by=odile, seen=seen)
