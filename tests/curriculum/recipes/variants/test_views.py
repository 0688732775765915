import re
import uuid
from html import unescape

import pytest

from curriculum.recipes import queries
from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_copy, a_person, an_approved
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db
PAGE = "/recipes/R01/1/variant/?without=gluten"


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


@pytest.fixture
def odile(client):
    a_book("R01")
    client.force_login(a_person("odile"))
    return client


def _said(page, **more):
    form = page.context["form"]
    said = {"key": str(uuid.uuid4()), **form.initial}
    for each in form.lines:
        said |= {f"deed_{each.name}": "replace", f"food_{each.name}": "rice_flour"}
        said[f"weight_{each.name}"] = str(each.line.milligrams // 1000)
    return said | more


def test_every_line_that_has_it_is_asked_about_and_foods_like_it_come_first(odile):
    page = odile.get(PAGE)
    words = _words(page)
    assert "260 g Soft wheat flour" in words and "20 g Soft wheat flour" in words
    groups = [name for name, _ in page.context["form"].line_fields()[0].fields[1].field.choices]
    assert groups[1:] == ["Like it", "Every food without it"]


def test_a_variant_is_written_and_shown_against_the_ordinary_recipe(odile):
    answer = odile.post(PAGE, _said(odile.get(PAGE)))
    assert answer.url == "/recipes/R01-no-gluten/1/against/"
    words = _words(odile.get(answer.url))
    assert "Soft wheat flour, now Rice flour" in words and "Gone: gluten (wheat)." in words
    assert "Read again" in words and "To read again" in words
    writing = odile.get("/recipes/R01-no-gluten/1/write/").content.decode()
    assert f'href="{answer.url}">What is to be read again</a>' in writing
    recipe = queries.recipe_data(Version.objects.get(recipe__code="R01-no-gluten"))
    assert recipe.free_from == ("gluten",) and recipe.variant_of == "R01"
    assert "line by line against it" in _words(odile.get("/recipes/R01-no-gluten/1/"))


def test_what_was_typed_stays_when_a_line_has_no_food_and_nothing_is_written(odile):
    page = odile.get(PAGE)
    name = page.context["form"].lines[0].name
    answer = odile.post(PAGE, _said(page, **{f"food_{name}": "", "title": "My own quiche"}))
    assert "No food is chosen for Soft wheat flour." in _words(answer)
    assert "My own quiche" in answer.content.decode() and Version.objects.count() == 1


def test_a_food_that_has_it_cannot_be_chosen(odile):
    page = odile.get(PAGE)
    name = page.context["form"].lines[0].name
    answer = odile.post(PAGE, _said(page, **{f"food_{name}": "strong_wheat_flour"}))
    assert "not listed any more" in _words(answer) and Version.objects.count() == 1


def test_a_line_left_out_needs_no_food_and_no_weight(odile):
    page = odile.get(PAGE)
    name = page.context["form"].lines[1].name
    left = {f"deed_{name}": "leave_out", f"food_{name}": "", f"weight_{name}": "a handful"}
    assert odile.post(PAGE, _said(page, **left)).status_code == 302


def test_nothing_to_replace_and_no_way_chosen_say_what_to_do(odile):
    assert "No line has it." in _words(odile.get("/recipes/R01/1/variant/?without=peanuts"))
    assert "Not chosen yet." in _words(odile.get("/recipes/R01/1/variant/?without=mud"))
    assert "The variant is" in _words(odile.get("/recipes/R01/1/variant/"))


def test_a_variant_of_a_variant_is_refused_in_words(client):
    a_book("R01", "V1")
    client.force_login(a_person("odile"))
    answer = client.get("/recipes/V1/1/variant/")
    assert answer.status_code == 409 and "a variant itself" in _words(answer)


def test_learners_read_what_is_different_but_not_what_is_to_be_read_again(client):
    a_book("R01", "V1")
    client.force_login(a_person("wren", "student"))
    words = _words(client.get("/recipes/V1/1/against/"))
    assert "Replaced" in words and "Read again" not in words
    assert client.get("/recipes/R01/1/against/").status_code == 404
    assert "What is different" in _words(client.get("/recipes/R01/"))


@pytest.mark.parametrize("count", [3, 30])
def test_the_pages_take_as_many_queries_in_a_large_book_as_in_a_small_one(
    client, count, django_assert_max_num_queries
):
    a_book("R01", "V1")
    odile, solveig = a_person("odile"), a_person("solveig")
    for number in range(count):
        an_approved(a_copy(college_recipe("R02"), number), odile, solveig)
    client.force_login(odile)
    with django_assert_max_num_queries(20):
        client.get(PAGE)
    with django_assert_max_num_queries(26):
        client.get("/recipes/V1/1/against/")
