"""The list of the book: searched, narrowed, folded and paged."""

import re
from html import unescape

import pytest

from curriculum.recipes import queries
from tests.builders.book import a_book, a_copy, a_person, an_approved
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture
def lecturer(client):
    client.force_login(a_person("odile"))
    return client


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


SEARCHES = [
    ("q=eclairs", {"R03"}),
    ("q=ÉCLAIRS", {"R03"}),
    ("q=leek+cheddar", {"R01", "V1", "V2"}),
    ("q=quenelle+lemon", {"R02"}),
    ("technique=blind_baking", {"R01", "R02", "V1", "V2"}),
    ("technique=blind_baking&technique=sablage", {"R02"}),
    ("without=egg", {"V2", "R09"}),
    ("without=almond", {"R01", "R02", "R03", "R09", "V1", "V2"}),
    ("level=advanced", {"R09"}),
    ("q=butter&without=gluten&level=foundation", {"V1"}),
    ("q=nothing+so", set()),
]


def test_the_book_is_searched_by_words_technique_level_and_what_is_left_out(lecturer):
    a_book("R01", "R02", "R03", "R09", "V1", "V2")
    for query, found in SEARCHES:
        answer = lecturer.get(f"/recipes/?{query}")
        links = set(re.findall(r'href="/recipes/(\w+)/"', answer.content.decode())) - {"write"}
        assert links == found, query


def test_a_search_says_how_many_and_with_what(lecturer):
    a_book("R01", "R02", "R03")
    words = _words(lecturer.get("/recipes/?technique=blind_baking&without=nuts"))
    assert "Two of three recipes: with blind baking, without nuts as an ingredient." in words


def test_the_book_is_narrowed_by_times_oven_cost_and_food_and_says_so(lecturer):
    a_book("R01")
    found = _words(lecturer.get("/recipes/?one_cook_minutes=1000&portion_pence=9000&sort=portion_pence"))
    assert (
        "One of one recipe: done by one cook within 16 h 40, at most £90.00 a portion. "
        "Sorted by cost of a portion." in found
    )
    assert "a portion, at prices of 16 Feb" in found
    assert "None of one recipe: without an oven." in _words(lecturer.get("/recipes/?oven_minutes=0"))


def test_a_search_that_finds_nothing_says_which_thing_stands_in_the_way(lecturer):
    a_book("R01", "R02")
    page = lecturer.get("/recipes/?q=quiche&technique=blind_baking&oven_minutes=0&page=3").content.decode()
    assert "Look again, but not without an oven" in unescape(page)
    assert "Look again, but not with blind baking" not in page
    assert 'href="?q=quiche&amp;technique=blind_baking"' in page
    none = _words(lecturer.get("/recipes/?q=juggling&oven_minutes=0"))
    assert "No single thing stands in the way" in none and "Look again" not in none


def test_the_folded_fields_are_open_when_one_of_them_is_used(lecturer):
    a_book("R01")
    assert '<details class="more">' in lecturer.get("/recipes/?q=quiche").content.decode()
    assert '<details class="more" open>' in lecturer.get("/recipes/?food=leek").content.decode()
    assert '<details class="more" open>' in lecturer.get("/recipes/?work_minutes=soon").content.decode()


def test_a_field_that_cannot_be_read_does_not_hide_what_the_others_asked(lecturer):
    a_book("R01", "R02")
    words = _words(lecturer.get("/recipes/?q=leek&work_minutes=soon"))
    assert "One of two recipes: with the words “leek”." in words and "“soon”" in words


def test_techniques_chosen_stand_ticked_and_the_links_of_the_pages_keep_them(lecturer):
    a_book("R01")
    odile, solveig = a_person("odile"), a_person("solveig")
    for number in range(26):
        an_approved(a_copy(college_recipe("R01"), number), odile, solveig)
    page = lecturer.get("/recipes/?technique=blind_baking&technique=rubbing_in&food=leek").content.decode()
    for code in ("blind_baking", "rubbing_in"):
        assert f'<input type="checkbox" name="technique" value="{code}" checked>' in page
        assert f'<option value="{code}"' not in page
    assert 'href="?technique=blind_baking&amp;technique=rubbing_in&amp;food=leek&amp;page=2"' in page


def test_more_techniques_than_a_lesson_has_are_refused(lecturer):
    a_book("R01")
    codes = list(queries.technique_names())[:13]
    answer = lecturer.get("/recipes/", {"technique": codes})
    assert "Choose twelve techniques at most." in _words(answer)


def test_a_learner_is_neither_shown_costs_nor_narrows_by_them(client):
    a_book("R01")
    client.force_login(a_person("wren", "student"))
    words = _words(client.get("/recipes/?portion_pence=0&sort=portion_pence"))
    assert "a portion, at prices" not in words and "A portion, at most" not in words


def test_a_filter_that_is_no_filter_is_said_and_finds_everything(lecturer):
    a_book("R01")
    answer = lecturer.get("/recipes/?level=excellent&technique=juggling")
    assert answer.status_code == 200 and "not listed" in _words(answer)


NARROWED = (
    "",
    "?q=quiche",
    "?q=butter&technique=blind_baking&technique=rubbing_in&food=leek&level=foundation&one_cook_minutes=900"
    "&work_minutes=900&oven_minutes=900&portion_pence=9000&sort=portion_pence",
    "?without=fish&sort=one_cook_minutes",
)


def test_the_list_takes_as_many_queries_for_thirty_recipes_as_for_three(
    lecturer, django_assert_max_num_queries
):
    a_book("R01")
    odile, solveig = a_person("odile"), a_person("solveig")

    def queries_of(address: str) -> int:
        with django_assert_max_num_queries(16) as counted:
            assert "No recipe of the book" not in _words(lecturer.get(f"/recipes/{address}"))
        return len(counted)

    for number in range(2):
        an_approved(a_copy(college_recipe("R01"), number), odile, solveig)
    few = [queries_of(address) for address in NARROWED]
    for number in range(2, 29):
        an_approved(a_copy(college_recipe("R01"), number), odile, solveig)
    assert [queries_of(address) for address in NARROWED] == few


def test_times_and_costs_are_narrowed_by_as_people_write_them(lecturer):
    a_book("R01")
    asked = {"one_cook_minutes": "16 h 40", "portion_pence": "£90.00"}
    words = _words(lecturer.get("/recipes/", asked))
    assert "done by one cook within 16 h 40, at most £90.00 a portion" in words
    assert "such as 90 or 1 h 30" in _words(lecturer.get("/recipes/", {"one_cook_minutes": "an hour"}))
