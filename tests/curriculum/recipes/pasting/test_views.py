"""The page of pasted lines: how each was read, in which measures, at which place; what is kept of it."""

import re
import uuid
from html import unescape

import pytest

from curriculum.recipes import actions, queries
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db
PASTE = "/recipes/R01/1/write/components/A/paste/"


@pytest.fixture
def lecturer(client):
    client.force_login(a_person("odile"))
    return client


@pytest.fixture
def draft():
    a_book("R02")
    return actions.write_recipe(recipe=college_recipe("R01"), by=a_person("odile"))


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def _sent_back(answer, **changes):
    """The forms of the page as a browser sends them back, with some fields changed."""
    forms = answer.context["lines"]
    data = {"form-TOTAL_FORMS": len(forms), "form-INITIAL_FORMS": len(forms), "key": str(uuid.uuid4())}
    for form in forms:
        for bound in form:
            shown = bound.field.prepare_value(form.get_initial_for_field(bound.field, bound.name))
            if shown not in (None, False):
                data[bound.html_name] = shown
    kept = answer.context["kept"]
    return data | {"text": kept["text"].value(), "system": kept["system"].value()} | changes


def _added(draft):
    return queries.recipe_data(draft).components[0].lines[4:]


def test_words_that_differ_are_asked_about_with_what_each_system_makes_of_them(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "1 cup whole milk\n50 g unsalted butter", "system": ""})
    words = _words(answer)
    assert "Which measures" in words and "US 236.6 ml, imperial 284.1 ml" in words
    assert "Two lines, one to look at." in words
    assert "1 <u>cup</u> whole milk" in answer.content.decode()
    assert answer.context["again"]["text"].value().startswith("1 cup whole milk")


def test_a_volume_says_its_grams_and_whose_density_made_them(lecturer, draft):
    words = _words(lecturer.post(PASTE, {"text": "1 cup whole milk", "system": "us"}))
    assert "“1 cup” is read as" in words and "236.6 ml at" in words and "USDA" in words
    assert "Read in these measures: US cups and spoons." in words


def test_what_is_kept_keeps_its_words_and_the_recipe_its_measures(lecturer, draft):
    read = lecturer.post(PASTE, {"text": "1 cup whole milk\n2-3 oz unsalted butter", "system": "us"})
    assert lecturer.post(PASTE, _sent_back(read)).status_code == 302
    milk, butter = _added(draft)
    assert (milk.written, butter.written) == ("1 cup", "2-3 oz")
    assert butter.least_milligrams == 56_700 and butter.milligrams == butter.most_milligrams == 85_050
    assert queries.recipe_data(draft).measures == "us"


def test_words_are_let_go_when_a_person_writes_another_weight(lecturer, draft):
    read = lecturer.post(PASTE, {"text": "1 cup whole milk", "system": "us"})
    lecturer.post(PASTE, _sent_back(read, **{"form-0-milligrams": "300"}))
    (milk,) = _added(draft)
    assert (milk.milligrams, milk.written) == (300_000, "")
    assert queries.recipe_data(draft).measures == ""


def test_a_pinch_keeps_its_words_beside_the_weight_that_a_person_gives(lecturer, draft):
    read = lecturer.post(PASTE, {"text": "a pinch of fine salt", "system": ""})
    assert "practice varies" in _words(read)
    lecturer.post(PASTE, _sent_back(read, **{"form-0-milligrams": "0.4"}))
    (salt,) = _added(draft)
    assert (salt.milligrams, salt.written) == (400, "a pinch")


def test_a_recipe_has_one_system_and_other_words_are_dropped_with_their_grams_kept(lecturer, draft):
    first = lecturer.post(PASTE, {"text": "1 cup whole milk", "system": "us"})
    lecturer.post(PASTE, _sent_back(first))
    second = lecturer.post(PASTE, {"text": "1 cup whole milk\n1 lb unsalted butter", "system": "metric"})
    assert "only the grams are kept" in _words(second)
    lecturer.post(PASTE, _sent_back(second))
    assert [line.written for line in _added(draft)] == ["1 cup", "", "1 lb"]
    assert queries.recipe_data(draft).measures == "us"


def test_a_refused_answer_keeps_the_text_the_place_and_what_was_typed(lecturer, draft):
    read = lecturer.post(PASTE, {"text": "1 cup moon dust", "system": "us"})
    answer = lecturer.post(PASTE, _sent_back(read, **{"form-0-note": "from afar"}))
    page = answer.content.decode()
    assert "No food is chosen." in _words(answer)
    assert "<u>1 cup</u> moon dust" in page and "from afar" in page
    assert answer.context["again"]["text"].value() == "1 cup moon dust"
    assert answer.context["again"]["system"].value() == "us"


def test_hidden_fields_that_were_tampered_with_break_nothing(lecturer, draft):
    read = lecturer.post(PASTE, {"text": "1 cup whole milk", "system": "us"})
    for changes in (
        {"form-0-begins": "-4", "form-0-ends": "x"},
        {"form-0-least": "9" * 30, "form-0-most": "1"},
        {"form-0-written": "y" * 500},
        {"system": "parsecs"},
    ):
        assert lecturer.post(PASTE, _sent_back(read, **changes)).status_code in (200, 302), changes


def test_markup_in_a_line_is_text(lecturer, draft):
    page = lecturer.post(PASTE, {"text": "1 <b>cup</b> milk", "system": ""}).content.decode()
    assert "<b>cup" not in page and "&lt;b&gt;" in page


@pytest.mark.parametrize("count", [3, 30])
def test_reading_takes_as_many_queries_for_thirty_lines_as_for_three(
    lecturer, draft, count, django_assert_max_num_queries
):
    with django_assert_max_num_queries(40):
        lecturer.post(PASTE, {"text": "1 cup whole milk\n" * count, "system": "us"})


def test_a_food_chosen_for_an_amount_is_weighed_and_looked_at_before_it_is_added(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "1 1/2 cups pastry flour\n200 g caster sugar", "system": "us"})
    sent = _sent_back(answer, **{"form-0-food": "soft_wheat_flour"})
    looked = lecturer.post(PASTE, sent)
    words = _words(looked)
    assert "“1 1/2 cups pastry flour”: the weight is filled in. Look at it, and add again." in words
    assert "is read as 187.38 g of Soft wheat flour" in words
    assert not _added(draft)
    shown = looked.context["lines"].data
    assert shown["form-0-milligrams"] == "187.38"
    assert lecturer.post(PASTE, shown.dict()).status_code == 302
    assert [(line.food, line.milligrams, line.written) for line in _added(draft)] == [
        ("soft_wheat_flour", 187_380, "1 1/2 cups"),
        ("caster_sugar", 200_000, "200 g"),
    ]


def test_a_chosen_food_whose_amount_says_no_weight_is_asked_for_as_before(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "plenty of flour", "system": ""})
    words = _words(lecturer.post(PASTE, _sent_back(answer, **{"form-0-food": "soft_wheat_flour"})))
    assert "No weight is written. Write one, or do not keep the line." in words
    assert "is filled in" not in words


def test_a_name_of_the_book_with_a_comma_in_it_is_read_whole(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "100 g hen egg, beaten whole\n100 g hen egg", "system": ""})
    assert [form["food"].value() for form in answer.context["lines"]] == ["egg_beaten", None]


def test_what_stands_in_the_way_names_its_line(lecturer, draft):
    answer = lecturer.post(PASTE, {"text": "100 g caster sugar\n300 g moon dust", "system": ""})
    words = _words(lecturer.post(PASTE, _sent_back(answer)))
    assert "“300 g moon dust”: Food: No food is chosen. Choose one, or do not keep the line." in words
