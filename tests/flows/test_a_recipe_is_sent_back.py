"""The promise: a recipe goes to and fro between two people, is approved, gets a variant, and is compared."""

import re
import uuid
from html import unescape

import pytest

from curriculum.recipes import actions, queries
from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def _words(answer):
    assert answer.status_code == 200
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _key():
    return {"key": str(uuid.uuid4())}


def _as(client, username, role="lecturer"):
    client.force_login(a_person(username, role))
    return client


def _sent_and_sent_back(client):
    assert _as(client, "odile").post("/recipes/R01/1/send/").status_code == 302
    assert "Recipes that wait for a second person" in _words(_as(client, "priya", "manager").get("/"))
    solveig = _as(client, "solveig")
    assert "Leek and Cheddar quiche, version 1" in _words(solveig.get("/"))
    reason = {"words": "The custard has too much salt."}
    assert solveig.post("/recipes/R01/1/send-back/", reason | _key()).status_code == 302
    assert "Leek and Cheddar quiche, version 1" not in _words(solveig.get("/"))


def _mended_and_approved(client):
    odile = _as(client, "odile")
    assert "Recipes sent back to you" in _words(odile.get("/"))
    assert "The custard has too much salt." in _words(odile.get("/recipes/R01/1/write/"))
    salt = next(line for line in _recipe("R01").components[2].lines if line.food == "fine_salt")
    line = f"/recipes/R01/1/write/components/C/lines/{salt.position}/"
    said = {"food": "fine_salt", "milligrams": "3", "weight_is": "prepared", "issued": "prepared"}
    assert odile.post(line, said | {"part": "recipe", "enters_portion": "on"} | _key()).status_code == 302
    assert odile.post("/recipes/R01/1/send/").status_code == 302
    solveig = _as(client, "solveig")
    assert solveig.post("/recipes/R01/1/check/").status_code == 302
    assert solveig.post("/recipes/R01/1/approve/").status_code == 302


def _recipe(code):
    return queries.recipe_data(Version.objects.get(recipe__code=code))


def _variant(client):
    odile = _as(client, "odile")
    address = "/recipes/R01/1/variant/?without=gluten"
    form = odile.get(address).context["form"]
    said = form.initial | _key()
    for each in form.lines:
        said |= {f"deed_{each.name}": "replace", f"food_{each.name}": "rice_flour"}
        said[f"weight_{each.name}"] = str(each.line.milligrams // 1000)
    return odile.post(address, said).url


def test_from_sent_and_sent_back_to_a_variant_against_the_ordinary_one(client):
    a_book()
    actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))
    _sent_and_sent_back(client)
    _mended_and_approved(client)
    history = _words(client.get("/recipes/R01/1/"))
    for became in ("Sent for checking", "Sent back", "Checked", "Approved to teach"):
        assert became in history

    against = _variant(client)
    words = _words(client.get(against))
    assert "Soft wheat flour, now Rice flour" in words and "Gone: gluten (wheat)." in words
    assert "To read again" in words
    assert _recipe("R01-no-gluten").free_from == ("gluten",)
    compared = _words(client.get("/recipes/R01/compare/?before=R01.1&now=R01-no-gluten.1"))
    assert "Replaced" in compared and "Cost of a portion today" in compared
    assert _as(client, "wren", "student").get(against).status_code == 404
