"""A recipe is brought in, looked at, kept as a draft, and goes out again as it came."""

import json
import re
from html import unescape

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from curriculum.recipes import queries
from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_person
from tests.builders.interchange import ROUNDS, rounds
from tests.flows.person import Form

pytestmark = pytest.mark.django_db
IN = "/recipes/write/bring-in/"


@pytest.fixture
def odile(client):
    a_book("R02")
    client.force_login(a_person("odile"))
    return client


def _upload(client, content, system=""):
    return client.post(IN, {"file": SimpleUploadedFile("r", content), "text": "", "system": system})


def _fields(answer, **changes):
    """The form of the review as a browser sends it, with a level chosen and some fields changed."""
    page = answer.content.decode()
    found = next(fields for _, fields in Form(page).forms if "source" in fields)
    found.pop("again", None)
    sent = {name: value.removeprefix("\n") for name, value in found.items() if not name.endswith("-keep")}
    sent |= {name: "on" for name in re.findall(r'name="((?:form|step)-\d+-keep)"[^>]*checked', page)}
    return sent | {"level": "foundation"} | changes


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _out(client, version):
    kwargs = {"code": version.recipe.code, "number": version.number}
    return json.loads(client.get(reverse("recipes:take_out_json", kwargs=kwargs)).content)


def test_a_recipe_comes_in_and_goes_out_equal(odile):
    read = _upload(odile, rounds().encode())
    assert "Kept as it came" in _words(read) and Version.objects.filter(state="draft").count() == 0
    saved = odile.post(IN, _fields(read))
    version = Version.objects.get(recipe__code="oat-butter-rounds"[:16].rpartition("-")[0])
    assert saved.status_code == 302 and saved["Location"].endswith(f"/{version.recipe.code}/1/write/")
    assert _out(odile, version) == ROUNDS
    recipe = queries.recipe_data(version)
    assert [line.milligrams for line in recipe.components[0].lines] == [250_000, 500_000, 150_000]


def test_only_what_is_ticked_is_kept(odile):
    fields = _fields(_upload(odile, rounds().encode()), **{"form-0-milligrams": "300"})
    del fields["form-1-keep"], fields["step-0-keep"]
    odile.post(IN, fields)
    said = _out(odile, Version.objects.get(state="draft"))
    assert said["recipeIngredient"] == ["300 g Unsalted butter, soft", "150 g caster sugar"]
    assert said["recipeInstructions"] == ROUNDS["recipeInstructions"][1:]


def test_measures_are_asked_and_reading_again_keeps_what_was_chosen(odile):
    text = "Loaf\nServes 4-6\n\n1 cup moon dust\n1 cup whole milk\n2 g fine salt\n\nMethod\n1. Mix.\n"
    read = odile.post(IN, {"text": text, "system": ""})
    assert "Which measures" in _words(read) and "no one count" in _words(read)
    chosen = {"system": "us", "form-0-food": "soft_wheat_flour", "form-2-milligrams": "3", "again": "1"}
    refused = odile.post(IN, _fields(read, system="us"))
    assert "The lines were read in other measures" in _words(refused)
    again = odile.post(IN, _fields(read, **chosen, title="Moon loaf", **{"step-0-words": "Mix it well."}))
    fields = _fields(again)
    assert (fields["title"], fields["form-0-food"], fields["form-2-milligrams"]) == (
        "Moon loaf",
        "soft_wheat_flour",
        "3",
    )
    assert fields["step-0-words"] == "Mix it well." and "Read in these measures" in _words(again)
    assert odile.post(IN, fields | {"portions_stated": "4"}).status_code == 302
    recipe = queries.recipe_data(Version.objects.get(state="draft"))
    assert recipe.measures == "us" and recipe.components[0].lines[1].written == "1 cup"
    assert recipe.components[0].lines[2].milligrams == 3_000 and recipe.portions_stated == 4


def test_a_line_without_a_food_is_asked_about_and_nothing_is_lost(odile):
    read = odile.post(IN, {"text": "Loaf\n\n5 g moon dust\n\nMethod\n1. Mix.\n", "system": ""})
    refused = odile.post(IN, _fields(read, title="My loaf"))
    words = _words(refused)
    assert "“5 g moon dust”: Food: No food is chosen" in words and "Portions stated: This is empty" in words
    assert words.count("stand in the way") == 1
    assert _fields(refused)["title"] == "My loaf" and Version.objects.filter(state="draft").count() == 0


def test_the_same_form_sent_twice_makes_one_draft(odile):
    fields = _fields(_upload(odile, rounds().encode()))
    first, second = odile.post(IN, fields), odile.post(IN, fields)
    assert Version.objects.filter(state="draft").count() == 1
    assert first.status_code == 302 and second.status_code in (200, 302)


def test_what_was_tampered_with_ends_in_a_sentence(odile):
    fields = _fields(_upload(odile, rounds().encode()))
    for changes in (
        {"source": "{"},
        {"source": rounds(recipeIngredient=["1 g salt"])},
        {"source": ""},
        {"form-TOTAL_FORMS": "x"},
        {"form-TOTAL_FORMS": "9999"},
        {"step-TOTAL_FORMS": ""},
        {"read_in": "parsecs"},
        {"form-0-food": "nothing"},
        {"form-0-read_as": "//////", "again": "1"},
        {"form-0-read_as": "a/9999999999999999999/1", "again": "1"},
        {"code": "R02"},
        {"key": "x"},
    ):
        assert odile.post(IN, fields | changes).status_code == 200, changes
    assert Version.objects.filter(state="draft").count() == 0


def test_a_broken_file_says_where_and_its_text_stays_to_be_mended(odile):
    answer = _upload(odile, b'{"@type": "Recipe",\n "name": }')
    assert "in line 2, at column 10" in _words(answer)
    assert answer.context["form"]["text"].value().startswith('{"@type"')


def test_the_book_leads_to_it(odile):
    assert IN in odile.get("/recipes/").content.decode()
