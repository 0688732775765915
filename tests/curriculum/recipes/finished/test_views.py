import re
from html import unescape

import pytest

from curriculum.recipes import actions, queries
from curriculum.recipes.data import FinishedData
from curriculum.recipes.models import Version
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db

URL = "/recipes/R02/2/write/finished/"


@pytest.fixture
def draft():
    a_book("R02")
    return actions.revise(version=Version.objects.get(), by=a_person("odile"))


@pytest.fixture
def odile(client):
    client.force_login(a_person("odile"))
    return client


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _row(number=1, **changes):
    row = {"components": ["A", "B"], "milligrams": "760", "portion": "95", "basis": "Weighed."} | changes
    return {f"row{number}_{name}": said for name, said in row.items()}


def test_finished_weights_rejects_and_what_stays_in_the_kitchen_are_written(odile, draft):
    sent = _row() | _row(2, components=["C"], milligrams="200", portion="") | {"not_served": ["C"]}
    answer = odile.post(URL, sent | {"reject_per_mille": "5", "plate_decicelsius": "60"})
    assert answer.url == "/recipes/R02/2/write/"
    recipe = queries.recipe_data(draft)
    assert recipe.finished == (
        FinishedData(("A", "B"), 760_000, 95_000, "Weighed."),
        FinishedData(("C",), 200_000, 0, "Weighed."),
    )
    assert (recipe.reject_per_mille, recipe.plate_decicelsius, recipe.not_served) == (50, 600, ("C",))
    assert "so eight" in _words(odile.get(answer.url))


def test_shown_and_sent_back_nothing_is_changed(odile, draft):
    odile.post(URL, _row() | {"not_served": ["C"], "reject_per_mille": "5"})
    before = queries.recipe_data(draft)
    sent = {}
    for bound in odile.get(URL).context["form"]:
        value = bound.field.prepare_value(bound.value())
        if value not in (None, "", []):
            sent[bound.name] = value
    assert odile.post(URL, sent).status_code == 302
    assert queries.recipe_data(draft) == before


BAD = [
    (_row(milligrams=""), "This is empty. Write what it weighs finished."),
    (_row(components=[]), "Nothing is chosen. Choose what is weighed together."),
    (_row(portion="761"), "This is more than the whole of it."),
    (_row(milligrams="a lot"), "begins with no amount"),
    (_row(components=["Q"]), "not listed"),
    ({"reject_per_mille": "101"}, "Write a figure from"),
]


@pytest.mark.parametrize(("sent", "says"), BAD)
def test_bad_input_is_said_at_its_field_and_kept(odile, draft, sent, says):
    before = queries.recipe_data(draft)
    answer = odile.post(URL, sent)
    assert answer.status_code == 200 and says in _words(answer)
    typed = [said for said in sent.values() if isinstance(said, str) and said]
    assert all(said in answer.content.decode() for said in typed)
    assert queries.recipe_data(draft) == before


def test_one_more_row_keeps_what_was_typed_and_writes_nothing(odile, draft):
    before = queries.recipe_data(draft)
    shown = int(odile.get(URL).context["form"].rows)
    answer = odile.post(URL, _row(milligrams="not yet") | {"rows": str(shown), "more": "1"})
    form = answer.context["form"]
    assert form.rows == shown + 1 and "not yet" in answer.content.decode()
    assert f'name="row{shown + 1}_milligrams"' in answer.content.decode()
    assert queries.recipe_data(draft) == before


def test_a_variant_is_proposed_the_techniques_that_its_ordinary_recipe_trains(odile):
    a_book("R01", "V1")
    version = Version.objects.get(recipe__code="V1")
    draft = actions.revise(version=version, by=a_person("odile"))
    url = f"/recipes/V1/{draft.number}/write/finished/"
    code = odile.get(url).context["form"].fields["techniques_lost"].choices[0][0]
    assert odile.post(url, {"techniques_lost": [code]}).status_code == 302
    assert queries.recipe_data(draft).techniques_lost == (code,)


def test_an_ordinary_recipe_loses_no_technique(odile, draft):
    assert "techniques_lost" not in odile.get(URL).context["form"].fields
