import re
import uuid
from html import unescape

import pytest

from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


@pytest.fixture
def odile(client):
    a_book("R01")
    client.force_login(a_person("odile"))
    return client


def test_a_recipe_is_copied_under_the_code_that_is_offered(odile):
    page = odile.get("/recipes/R01/1/copy/")
    initial = page.context["form"].initial
    assert initial["code"] == "R01-2" and "It remembers what it was copied from." in _words(page)
    answer = odile.post("/recipes/R01/1/copy/", {"key": str(uuid.uuid4()), **initial, "title": "Tart"})
    assert answer.url == "/recipes/R01-2/1/write/"
    words = _words(odile.get("/recipes/R01-2/1/"))
    assert "Copied from Leek" in words and "version 1" in words
    assert "Compare the two line by line" in words


def test_a_taken_code_is_said_at_its_field_and_what_was_typed_stays(odile):
    said = {"key": str(uuid.uuid4()), "title": "My tart", "code": "r01"}
    answer = odile.post("/recipes/R01/1/copy/", said)
    assert "is taken by" in answer.context["form"].errors["code"][0]
    assert "My tart" in answer.content.decode() and Version.objects.count() == 1
