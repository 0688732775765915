import re
import uuid
from html import unescape

import pytest

from curriculum.recipes import actions
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _as(client, username, role="lecturer"):
    client.force_login(a_person(username, role))
    return client


@pytest.fixture
def sent():
    a_book()
    odile = a_person("odile")
    version = actions.write_recipe(recipe=college_recipe("R01"), by=odile)
    return approval.send_for_check(version=version, by=odile)


def _said(words):
    return {"words": words, "key": str(uuid.uuid4())}


def test_the_reason_is_read_by_the_writer_and_stands_in_the_book(client, sent):
    solveig = _as(client, "solveig")
    assert "Send it back with a reason" in _words(solveig.get("/recipes/R01/1/"))
    assert solveig.post("/recipes/R01/1/send-back/", _said("Step 2 has no cue")).url == "/recipes/R01/1/"
    for page in ("/recipes/R01/1/", "/recipes/", "/recipes/R01/1/write/"):
        words = _words(_as(client, "odile").get(page))
        assert "Solveig sent it back" in words and "“Step 2 has no cue.” It waits for Odile." in words, page
    assert "What became of version 1" in _words(client.get("/recipes/R01/1/"))


def test_an_empty_reason_is_asked_for_at_its_field_and_nothing_is_sent_back(client, sent):
    answer = _as(client, "solveig").post("/recipes/R01/1/send-back/", _said(" "))
    assert "Not sent back yet." in _words(answer) and answer.context["form"].errors["words"]
    assert Version.objects.get().sent_at is not None


def test_what_was_typed_stays_when_the_version_was_changed_meanwhile(client, sent):
    actions.remove_line(version=sent, code="A", position=1, by=a_person("odile"))
    answer = _as(client, "solveig").post("/recipes/R01/1/send-back/", _said("More butter."))
    assert "was changed since" in _words(answer) and "More butter." in answer.content.decode()


def test_what_nobody_has_sent_is_not_asked_about(client, sent):
    approval.send_back(version=sent, by=a_person("solveig"), words="No cue.")
    answer = _as(client, "solveig").get("/recipes/R01/1/send-back/")
    assert answer.status_code == 409 and "neither send it back" in _words(answer)


def test_withdrawing_asks_with_what_it_means(client):
    a_book("R01")
    odile = _as(client, "odile")
    assert "Withdraw version 1" in _words(odile.get("/recipes/R01/1/"))
    asked = _words(odile.get("/recipes/R01/1/withdraw/"))
    assert "Lessons that were planned with it keep it" in asked and "Leave it in the book" in asked
    assert Version.objects.get().state == "approved"
    assert odile.post("/recipes/R01/1/withdraw/", _said("A newer one.")).url == "/recipes/R01/1/"
    assert Version.objects.get().state == "withdrawn"
    assert "A newer one." in _words(odile.get("/recipes/R01/1/"))


def test_learners_do_not_read_what_became_of_a_version(client):
    a_book("R01")
    assert "What became of version" in _words(_as(client, "odile").get("/recipes/R01/"))
    assert "What became of version" not in _words(_as(client, "wren", "student").get("/recipes/R01/"))


def test_the_writer_says_what_the_checker_should_know(client):
    a_book()
    actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))
    odile = _as(client, "odile")
    assert "For whoever checks it" in _words(odile.get("/recipes/R01/1/"))
    long = odile.post("/recipes/R01/1/send/", {"words": "x" * 601})
    assert long.status_code == 409 and "Write 600 at most." in _words(long)
    assert odile.post("/recipes/R01/1/send/", {"words": "A hotter oven."}).status_code == 302
    assert "“A hotter oven.”" in _words(_as(client, "solveig").get("/recipes/"))
