"""Two people write the same draft at once: the second is told, and nothing is overwritten."""

import re
import uuid
from dataclasses import replace
from html import unescape

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import actions, queries
from curriculum.recipes.data import LineData
from curriculum.recipes.opened.parts import fingerprint
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db

STEP = "/recipes/R01/1/write/steps/5/"
LINE = "/recipes/R01/1/write/components/A/lines/4/"


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


def _shown(form):
    """What a browser would send back of a form as it is shown."""
    data = {}
    for bound in form:
        value = bound.field.prepare_value(bound.value())
        if value not in (None, "", False, []):
            data[bound.name] = value
    return data


def _opened(client, url):
    return _shown(client.get(url).context["form"])


def _marek_changes(draft, position=5, **changes):
    step = replace(queries.recipe_data(draft).step(position), **changes)
    actions.change_step(version=draft, step=step, by=a_person("marek"))


def test_the_second_to_save_is_told_who_changed_what_and_nothing_is_written(odile, draft):
    mine = _opened(odile, STEP) | {"words": "Bake it blind, slowly."}
    _marek_changes(draft, words="Bake blind with beans.")
    answer = odile.post(STEP, mine)
    assert answer.status_code == 200
    assert "Marek changed this after you opened it: What is done is “Bake blind with beans.” now" in _words(
        answer
    )
    assert answer.context["form"]["words"].value() == "Bake it blind, slowly."
    assert queries.recipe_data(draft).step(5).words == "Bake blind with beans."


def test_sent_again_after_it_was_told_it_is_written(odile, draft):
    mine = _opened(odile, STEP) | {"words": "Bake it blind, slowly."}
    _marek_changes(draft, words="Bake blind with beans.")
    again = _shown(odile.post(STEP, mine).context["form"])
    assert odile.post(STEP, again).status_code == 302
    assert queries.recipe_data(draft).step(5).words == "Bake it blind, slowly."


def test_a_field_that_was_not_touched_takes_over_what_the_other_wrote(odile, draft):
    mine = _opened(odile, STEP) | {"caution": "The tin is hot."}
    _marek_changes(draft, cue="Dry and pale gold.", supervised=True)
    told = odile.post(STEP, mine)
    assert "Look for is “Dry and pale gold.” now" in _words(told)
    assert odile.post(STEP, _shown(told.context["form"])).status_code == 302
    step = queries.recipe_data(draft).step(5)
    assert (step.cue, step.supervised, step.caution) == ("Dry and pale gold.", True, "The tin is hot.")


def test_a_change_of_another_step_stands_in_nobodys_way(odile, draft):
    mine = _opened(odile, STEP) | {"words": "Bake it blind, slowly."}
    _marek_changes(draft, position=2, cue="Cold.")
    assert odile.post(STEP, mine).status_code == 302
    recipe = queries.recipe_data(draft)
    assert (recipe.step(5).words, recipe.step(2).cue) == ("Bake it blind, slowly.", "Cold.")


def test_both_wrote_the_same_so_nobody_is_stopped(odile, draft):
    mine = _opened(odile, STEP) | {"words": "Bake blind with beans."}
    _marek_changes(draft, words="Bake blind with beans.")
    assert odile.post(STEP, mine).status_code == 302


def test_where_steps_were_moved_nothing_is_taken_over(odile, draft):
    mine = _opened(odile, STEP)
    actions.move_step(version=draft, position=1, places=8, by=a_person("marek"))
    before = queries.recipe_data(draft)
    told = odile.post(STEP, mine)
    assert told.status_code == 200 and told.context["form"]["words"].value() == mine["words"]
    assert queries.recipe_data(draft) == before


def test_a_fifth_stay_that_another_added_is_not_lost(odile, draft):
    mine = _opened(odile, STEP) | {"caution": "The tin is hot."}
    stay = queries.recipe_data(draft).step(5).stays[0]
    _marek_changes(draft, stays=(stay,) * 5)
    told = odile.post(STEP, mine)
    assert told.status_code == 200
    assert odile.post(STEP, _shown(told.context["form"])).status_code == 302
    assert len(queries.recipe_data(draft).step(5).stays) == 5


def test_a_line_and_the_title_are_told_in_the_same_way(odile, draft):
    line = _opened(odile, LINE) | {"milligrams": "70"}
    title = _opened(odile, "/recipes/R01/1/write/title/") | {"notes": "Mine."}
    old = queries.recipe_data(draft).components[0].lines[3]
    marek = a_person("marek")
    actions.put_lines(version=draft, code="A", lines=(replace(old, milligrams=80_000),), by=marek)
    recipe = replace(queries.recipe_data(draft), notes="His.")
    actions.write_title(version=draft, recipe=recipe, by=marek)
    assert "Weight is “80” now" in _words(odile.post(LINE, line))
    assert "Notes is “His.” now" in _words(odile.post("/recipes/R01/1/write/title/", title))
    now = queries.recipe_data(draft)
    assert (now.components[0].lines[3].milligrams, now.notes) == (80_000, "His.")


def test_a_line_taken_out_meanwhile_makes_another_line_stand_there_and_that_is_said(odile, draft):
    mine = _opened(odile, "/recipes/R01/1/write/components/A/lines/3/") | {"note": "Cold."}
    actions.remove_line(version=draft, code="A", position=1, by=a_person("marek"))
    before = queries.recipe_data(draft)
    assert "Food is" in _words(odile.post("/recipes/R01/1/write/components/A/lines/3/", mine))
    assert queries.recipe_data(draft) == before


def test_what_was_typed_of_a_step_that_another_took_out_is_kept_to_be_added_anew(odile, draft):
    last = len(queries.recipe_data(draft).steps)
    url = f"/recipes/R01/1/write/steps/{last}/"
    mine = _opened(odile, url) | {"words": "Cut into eight and taste."}
    actions.remove_step(version=draft, position=last, by=a_person("marek"))
    told = odile.post(url, mine)
    assert told.status_code == 200 and "Marek took steps out after you opened this one." in _words(told)
    assert 'action="/recipes/R01/1/write/steps/"' in told.content.decode()
    assert odile.post("/recipes/R01/1/write/steps/", _shown(told.context["form"])).status_code == 302
    assert queries.recipe_data(draft).step(last).words == "Cut into eight and taste."
    assert odile.get(f"/recipes/R01/1/write/steps/{last + 1}/").status_code == 404


CHANGES = [
    lambda draft, by, seen: actions.change_step(
        version=draft, step=replace(college_recipe("R01").steps[4], cue="x"), by=by, seen=seen
    ),
    lambda draft, by, seen: actions.remove_step(version=draft, position=5, by=by, seen=seen),
    lambda draft, by, seen: actions.move_step(version=draft, position=5, places=1, by=by, seen=seen),
    lambda draft, by, seen: actions.put_component(
        version=draft, component=college_recipe("R01").components[0], by=by, seen=seen
    ),
    lambda draft, by, seen: actions.remove_component(version=draft, code="X", by=by, seen=seen),
    lambda draft, by, seen: actions.put_lines(
        version=draft, code="A", lines=(LineData(1, "lemon", 1),), by=by, seen=seen
    ),
    lambda draft, by, seen: actions.remove_line(version=draft, code="A", position=1, by=by, seen=seen),
    lambda draft, by, seen: actions.write_title(
        version=draft, recipe=college_recipe("R01"), by=by, seen=seen
    ),
]


@pytest.mark.parametrize("change", CHANGES)
def test_an_action_refuses_what_was_not_seen_and_changes_nothing(change, draft):
    before = queries.recipe_data(draft)
    with pytest.raises(RuleBroken) as refused:
        change(draft, a_person("marek"), fingerprint("something else"))
    assert refused.value.code == "changed_meanwhile" and "Odile changed version 1" in refused.value.message
    assert queries.recipe_data(draft) == before


def test_a_form_without_its_token_is_taken_as_new(odile, draft):
    sent = {name: said for name, said in _opened(odile, STEP).items() if name != "opened"}
    assert odile.post(STEP, sent | {"key": str(uuid.uuid4())}).status_code == 302
