import re
import uuid
from html import unescape

import pytest

from curriculum.foods.models import Food
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def stores(client):
    a_book()
    client.force_login(a_person("hana", "stores"))
    return client


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _plums(**changes):
    return {
        "name": "Plums",
        "storage": "chilled",
        "counted_in": "grams",
        "usable_per_mille": "94",
        "usable_source": "own test, 5 January 2027",
        "increment_milligrams": "5",
        "rounding": "up",
        "scaling_class": "linear",
        "key": str(uuid.uuid4()),
    } | changes


def test_a_new_food_is_added_and_nothing_is_declared_of_it(stores):
    assert stores.post("/foods/new/", _plums()).status_code == 302
    food = Food.objects.get(code="plums")
    assert (food.usable_per_mille, food.increment_milligrams, food.label_read_on) == (940, 5_000, None)
    words = _words(stores.get("/foods/?q=plums"))
    assert "One food." in words and "No label read" in words and "94 % usable" in words


def test_a_food_sent_twice_is_added_once(stores):
    data = _plums()
    stores.post("/foods/new/", data)
    stores.post("/foods/new/", data)
    assert Food.objects.filter(name="Plums").count() == 1


def test_bad_input_is_said_at_its_field(stores):
    before = Food.objects.count()
    for changes, says in (
        ({"name": ""}, "This is empty."),
        ({"name": "unsalted BUTTER"}, "is in the book already"),
        ({"usable_per_mille": "0"}, "Write a figure from"),
        ({"usable_per_mille": "120"}, "Write a figure from"),
        ({"usable_source": ""}, "A figure has a source."),
        ({"increment_milligrams": "0"}, "amount of nothing"),
        ({"increment_milligrams": ""}, "This is empty."),
        ({"counted_in": "pieces"}, "has a weight a piece"),
        ({"piece_milligrams": "50", "edible_piece_milligrams": "60"}, "more than the piece weighs"),
        ({"density": "heavy"}, "“heavy”"),
        ({"density": "103"}, "A figure has a source."),
        ({"scaling_class": "magic"}, "not listed"),
    ):
        assert says in _words(stores.post("/foods/new/", _plums(**changes))), changes
    assert Food.objects.count() == before


def test_names_in_any_script_get_a_code_of_their_own(stores):
    stores.post("/foods/new/", _plums(name="饺子皮"))
    stores.post("/foods/new/", _plums(name="خبز"))
    assert {food.code for food in Food.objects.filter(name__in=["饺子皮", "خبز"])} == {"food", "food_2"}


def test_the_list_takes_as_many_queries_for_all_foods_as_for_few(stores, django_assert_max_num_queries):
    with django_assert_max_num_queries(12) as few:
        stores.get("/foods/?q=butter")
    with django_assert_max_num_queries(12) as many:
        words = _words(stores.get("/foods/"))
    assert len(few) == len(many)
    assert "Page 1 of 7" in words and "Contains egg" in _words(stores.get("/foods/?kind=egg"))
    assert "Nothing declared on its label" in words
