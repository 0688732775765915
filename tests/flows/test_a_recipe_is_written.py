"""The promise: a lecturer writes a recipe from pasted lines, a colleague approves it, learners read it."""

import re
import uuid
from html import unescape

import pytest

from curriculum.recipes import queries
from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db
WRITE = "/recipes/plum-tart/1/write/"


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _key():
    return {"key": str(uuid.uuid4())}


def _as(client, username, role="lecturer"):
    client.force_login(a_person(username, role))
    return client


def _paste(client, component, text):
    """Read lines and keep them all as they were read."""
    read = client.post(f"{WRITE}components/{component}/paste/", {"text": text})
    forms = read.context["lines"]
    data = {"form-TOTAL_FORMS": len(forms), "form-INITIAL_FORMS": len(forms), **_key()}
    for form in forms:
        for bound in form:
            shown = bound.field.prepare_value(form.get_initial_for_field(bound.field, bound.name))
            if shown not in (None, False):
                data[bound.html_name] = shown
    return client.post(f"{WRITE}components/{component}/paste/", data)


def _begin(client):
    said = {
        "title": "Plum tart",
        "code": "plum-tart",
        "level": "foundation",
        "portions_stated": "8",
        "unit": "slice",
    }
    assert client.post("/recipes/write/", said | _key()).url == WRITE


def _step(client, words, components, **more):
    said = {
        "words": words,
        "cue": "As it should be.",
        "components": components,
        "usual": "hand",
        "hand_minutes": "10",
    }
    assert client.post(f"{WRITE}steps/", said | {"kept": "bench"} | more | _key()).status_code == 302


def test_from_pasted_lines_to_a_recipe_that_learners_read(client):
    a_book()
    odile = _as(client, "odile")
    _begin(odile)
    odile.post(f"{WRITE}components/", {"name": "Short paste", "basis": "lined_area"} | _key())
    assert (
        _paste(odile, "A", "260 g soft wheat flour\n130 g unsalted butter\n3 g fine salt").status_code == 302
    )
    odile.post(f"{WRITE}components/", {"name": "Filling", "basis": "filled_volume"} | _key())
    assert _paste(odile, "B", "200 g double cream\n2 eggs").status_code == 302
    assert "No step uses Short paste." in _words(odile.get(WRITE))
    oven = {"stay1_in": "oven", "stay1_minutes": "30", "stay1_decicelsius": "180"}
    _step(odile, "Rub in, bind, line.", ["A"], stay1_in="chiller", stay1_minutes="20")
    _step(odile, "Fill and bake.", ["A", "B"], after_1="on", after_1_longest="480", **oven)
    assert "Step 2 is in the oven without a kind of heat" in _words(odile.get(WRITE))

    solveig = _as(client, "solveig")
    refused = solveig.post("/recipes/plum-tart/1/check/")
    assert refused.status_code == 409 and "kind of heat" in _words(refused)

    odile = _as(client, "odile")
    mended = oven | {"stay1_heat": "fan", "words": "Fill and bake.", "cue": "Set.", "components": ["A", "B"]}
    mended |= {
        "usual": "hand",
        "hand_minutes": "10",
        "after_1": "on",
        "after_1_longest": "480",
        "kept": "bench",
    }
    assert odile.post(f"{WRITE}steps/2/", mended | _key()).status_code == 302
    tin = {"shape": "round", "kind": "flan tin", "count": "1", "diameter_mm": "24", "depth_mm": "3"}
    odile.post(f"{WRITE}tins/", tin | {"lined_with": "A", "filled_with": ["B"]} | _key())
    assert "Nothing missing" in _words(odile.get(WRITE))
    assert _as(client, "wren", "student").get("/recipes/plum-tart/").status_code == 404

    assert _as(client, "solveig").post("/recipes/plum-tart/1/check/").status_code == 409
    assert _as(client, "odile").post("/recipes/plum-tart/1/send/").status_code == 302
    solveig = _as(client, "solveig")
    assert solveig.post("/recipes/plum-tart/1/check/").status_code == 302
    assert solveig.post("/recipes/plum-tart/1/approve/").status_code == 302

    page = _words(_as(client, "wren", "student").get("/recipes/plum-tart/1/scale/?portions=16"))
    assert "520 g Soft wheat flour" in page
    recipe = queries.recipe_data(Version.objects.get(recipe__code="plum-tart"))
    assert [line.food for line in recipe.components[1].lines] == ["double_cream_48", "egg_in_shell"]
    assert recipe.components[1].lines[1].pieces == 2
