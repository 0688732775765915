import re
import uuid
from dataclasses import replace
from html import unescape

import pytest

from curriculum.recipes import actions, queries
from curriculum.recipes.data import AfterData
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db

WRITE = "/recipes/R01/1/write/"
LINE = f"{WRITE}components/A/lines/4/"
LIVE = {"HX-Request": "true", "HX-Target": "so-far"}


@pytest.fixture
def draft():
    a_book()
    return actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))


@pytest.fixture
def odile(client):
    client.force_login(a_person("odile"))
    return client


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _line(**changes):
    said = {"food": "water", "milligrams": "62", "weight_is": "prepared", "issued": "prepared"}
    return said | {"part": "recipe", "enters_portion": "on", "key": str(uuid.uuid4())} | changes


def test_the_writing_page_draws_the_steps_and_sums_what_is_written(odile, draft):
    answer = odile.get(WRITE)
    words = _words(answer)
    for wanted in ("Which step waits for which", "Step 2 waits for step 1", "Put in together", "Cost so far"):
        assert wanted in words, wanted
    assert answer.content.count(b'class="linkhead"') == sum(
        len(step.after) for step in queries.recipe_data(draft).steps
    )


def test_what_is_typed_is_summed_beside_the_form_and_not_written(odile, draft):
    before = queries.recipe_data(draft)
    answer = odile.post(LINE, _line(milligrams="1062"), headers=LIVE)
    assert answer.status_code == 200 and b"<html" not in answer.content
    words = _words(answer)
    assert "As it would be" in words and "It is not written yet." in words
    assert queries.recipe_data(draft) == before
    stands = _words(odile.get(LINE))
    assert "So far" in stands and "As it would be" not in stands


def test_a_food_that_the_draft_did_not_have_is_summed_too(odile, draft):
    answer = odile.post(f"{WRITE}components/A/lines/", _line(food="lemon", milligrams="500"), headers=LIVE)
    assert "As it would be" in _words(answer)


def test_what_cannot_be_read_leaves_the_sums_as_the_draft_stands(odile, draft):
    words = _words(odile.post(LINE, _line(milligrams="a lot"), headers=LIVE))
    assert "So far" in words and "As it would be" not in words


def test_sums_stand_beside_the_forms_of_title_component_line_and_finished_weights(odile, draft):
    for page in ("title/", "components/", "components/A/", "components/A/lines/", "finished/"):
        assert "Put in together" in _words(odile.get(f"{WRITE}{page}")), page


def test_a_draft_with_only_things_to_look_at_can_be_sent_from_its_page(odile, draft):
    recipe = replace(queries.recipe_data(draft), portions_obtainable=900)
    actions.write_title(version=draft, recipe=recipe, by=a_person("odile"))
    answer = odile.get(WRITE)
    findings = answer.context["so_far"].findings
    assert findings and not any(finding.stops for finding in findings)
    assert "Send for checking" in _words(answer)


def _larger(draft, steps):
    """The draft with so many steps, each after the one before."""
    recipe = queries.recipe_data(draft)
    while len(recipe.steps) < steps:
        last = recipe.steps[-1]
        new = replace(last, position=last.position + 1, after=(AfterData(last.position),))
        actions.add_step(version=draft, step=new, by=a_person("odile"))
        recipe = queries.recipe_data(draft)


@pytest.mark.parametrize("page", ["", "steps/", "steps/2/", "finished/", "title/", "components/A/lines/1/"])
def test_a_page_takes_as_many_queries_with_thirty_steps_as_with_nine(
    odile, draft, page, django_assert_max_num_queries
):
    odile.get(f"{WRITE}{page}")
    with django_assert_max_num_queries(40) as few:
        odile.get(f"{WRITE}{page}")
    _larger(draft, 30)
    with django_assert_max_num_queries(40) as many:
        odile.get(f"{WRITE}{page}")
    assert len(many) == len(few)
