import csv
import io
import json

import pytest
from django.urls import reverse

from curriculum.recipes import queries
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture
def approved(client):
    version = a_book("R02")["R02"]
    client.force_login(a_person("wren", "student"))
    return version


def _taken(client, version, name):
    kwargs = {"code": version.recipe.code, "number": version.number}
    answer = client.get(reverse(f"recipes:{name}", kwargs=kwargs))
    assert answer.status_code == 200 and "attachment" in answer["Content-Disposition"]
    return answer.content.decode()


def test_a_learner_takes_out_an_approved_recipe_in_each_form(client, approved):
    recipe = queries.recipe_data(approved)
    assert recipe.title == college_recipe("R02").title
    said = json.loads(_taken(client, approved, "take_out_json"))
    rows = list(csv.reader(io.StringIO(_taken(client, approved, "take_out_table"), newline="")))
    assert said["name"] == recipe.title and len(said["recipeIngredient"]) == len(rows) - 1
    assert _taken(client, approved, "take_out_text").startswith(recipe.title)


def test_the_recipe_page_leads_to_each_form(client, approved):
    page = client.get(reverse("recipes:recipe", kwargs={"code": approved.recipe.code})).content.decode()
    assert all(f"/out/{form}/" in page for form in ("json-ld", "text", "table"))
