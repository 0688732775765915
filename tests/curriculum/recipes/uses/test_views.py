"""Which recipes use a food or a part of it, in a number of queries that does not grow."""

import pytest

from curriculum.foods.models import Food
from tests.builders.book import a_book, a_copy, a_person, an_approved
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def _copies(first, last):
    recipe, by, checker = college_recipe("R04"), a_person("odile"), a_person("solveig")
    for number in range(first, last):
        an_approved(a_copy(recipe, number), by=by, checker=checker)


def test_recipes_that_use_a_food_are_named_with_their_weights(client):
    a_book("R04")
    client.force_login(a_person("odile"))
    code = Food.objects.get(name="Unsalted butter").code
    words = client.get(f"/foods/{code}/recipes/").content.decode()
    assert "/recipes/R04/" in words and "Taught now" in words and "Unsalted butter" in words
    assert "No recipe uses it." in client.get("/foods/leek/recipes/").content.decode()


def test_a_whole_piece_shows_the_recipes_that_use_its_parts(client):
    a_book("R04")
    client.force_login(a_person("odile"))
    assert "/recipes/R04/" in client.get("/foods/egg_in_shell/recipes/").content.decode()


def test_the_queries_do_not_grow_with_the_recipes(client, django_assert_max_num_queries):
    a_book("R04")
    client.force_login(a_person("odile"))
    code = Food.objects.get(name="Unsalted butter").code
    _copies(0, 2)
    with django_assert_max_num_queries(14) as few:
        client.get(f"/foods/{code}/recipes/")
    _copies(2, 12)
    with django_assert_max_num_queries(14) as many:
        client.get(f"/foods/{code}/recipes/")
    assert len(few) == len(many)
