import uuid

import pytest

from curriculum.recipes import actions, queries
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db

WRITE = "/recipes/R01/1/write/"


@pytest.fixture
def draft():
    a_book()
    return actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))


@pytest.fixture
def odile(client):
    client.force_login(a_person("odile"))
    return client


def _codes(draft):
    return [each.code for each in queries.recipe_data(draft).components]


def _foods(draft):
    return [line.food for line in queries.recipe_data(draft).components[0].lines]


def test_a_step_goes_one_later_and_back(odile, draft):
    before = queries.recipe_data(draft)
    assert odile.post(f"{WRITE}steps/2/later/").url == f"{WRITE}#steps"
    moved = queries.recipe_data(draft)
    assert moved.step(3).words == before.step(2).words
    odile.post(f"{WRITE}steps/3/earlier/")
    assert queries.recipe_data(draft) == before


def test_components_and_lines_go_both_ways(odile, draft):
    codes, foods = _codes(draft), _foods(draft)
    odile.post(f"{WRITE}components/A/later/")
    assert _codes(draft)[:2] == [codes[1], codes[0]]
    odile.post(f"{WRITE}components/A/earlier/")
    odile.post(f"{WRITE}components/A/lines/1/later/")
    assert _codes(draft) == codes and _foods(draft) == [foods[1], foods[0], *foods[2:]]
    odile.post(f"{WRITE}components/A/lines/2/earlier/")
    assert _foods(draft) == foods


def test_what_is_first_stays_first_and_what_is_last_last(odile, draft):
    before = queries.recipe_data(draft)
    last = len(before.steps)
    for url in (
        "steps/1/earlier/",
        f"steps/{last}/later/",
        "components/A/earlier/",
        "components/A/lines/1/earlier/",
    ):
        assert odile.post(f"{WRITE}{url}").status_code == 302
    assert queries.recipe_data(draft) == before


def test_a_button_pressed_twice_moves_once(odile, draft):
    words = queries.recipe_data(draft).step(2).words
    sent = {"key": str(uuid.uuid4()), "seen": odile.get(WRITE).context["seen"]}
    assert [odile.post(f"{WRITE}steps/2/later/", sent).status_code for _ in range(2)] == [302, 302]
    assert queries.recipe_data(draft).step(3).words == words


@pytest.mark.parametrize("deed", ["later", "earlier", "remove"])
def test_a_button_of_a_page_that_is_out_of_date_is_refused_in_words(odile, draft, deed):
    seen = odile.get(WRITE).context["seen"]
    actions.move_step(version=draft, position=1, places=3, by=a_person("marek"))
    before = queries.recipe_data(draft)
    for part in ("steps/2", "components/B", "components/A/lines/2"):
        answer = odile.post(f"{WRITE}{part}/{deed}/", {"seen": seen})
        assert answer.status_code == 409 and "Marek changed version 1" in answer.content.decode()
    assert queries.recipe_data(draft) == before


@pytest.mark.parametrize("url", ["steps/99/later/", "components/Q/later/", "components/A/lines/99/earlier/"])
def test_what_is_not_there_is_not_found(odile, draft, url):
    assert odile.post(f"{WRITE}{url}").status_code == 404
