import re
from html import unescape

import pytest

from curriculum.recipes import actions
from curriculum.recipes.comparing.queries import family
from curriculum.recipes.copying.actions import copy_recipe
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db


def _words(answer):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


@pytest.fixture
def book(client):
    versions = a_book("R01", "V1")
    client.force_login(a_person("odile"))
    return versions


def test_a_revision_is_first_compared_with_what_it_was_made_from(client, book):
    new = actions.revise(version=book["R01"], by=a_person("odile"))
    actions.remove_line(version=new, code="A", position=3, by=a_person("odile"))
    words = _words(client.get("/recipes/R01/compare/"))
    assert "version 2, against" in words and "Left out" in words and "Cost of a portion today" in words


def test_a_copy_and_a_variant_are_among_the_versions_to_choose(client, book):
    copied = copy_recipe(version=book["R01"], title="Tart", code="tart", by=a_person("odile"))
    names = [code for code, _ in client.get("/recipes/R01/compare/").context["form"].fields["now"].choices]
    assert set(names) == {"R01.1", "V1.1", "tart.1"}
    assert set(family(copied.recipe, False)) >= {copied, book["R01"]}
    words = _words(client.get("/recipes/R01/compare/?before=R01.1&now=V1.1"))
    assert "Replaced" in words and "Gone: gluten (wheat)." in words


def test_a_version_that_has_nothing_to_do_with_it_is_said_at_its_field(client, book):
    answer = client.get("/recipes/R01/compare/?before=R01.1&now=R09.7")
    assert answer.status_code == 200 and "not listed any more" in _words(answer)


def test_one_version_alone_says_what_to_do(client):
    a_book("R02")
    client.force_login(a_person("odile"))
    assert "one and the same version" in _words(client.get("/recipes/R02/compare/"))


def test_learners_compare_only_what_is_taught_and_see_no_cost(client, book):
    actions.revise(version=book["R01"], by=a_person("odile"))
    client.force_login(a_person("wren", "student"))
    answer = client.get("/recipes/R01/compare/")
    names = {code for code, _ in answer.context["form"].fields["now"].choices}
    assert names == {"R01.1", "V1.1"} and "Cost of a portion" not in _words(answer)


@pytest.mark.parametrize("count", [3, 30])
def test_comparing_takes_as_many_queries_in_a_large_family_as_in_a_small_one(
    client, book, count, django_assert_max_num_queries
):
    for number in range(count):
        copy_recipe(version=book["R01"], title="Tart", code=f"tart-{number}", by=a_person("odile"))
    with django_assert_max_num_queries(24) as queries:
        client.get("/recipes/R01/compare/?before=R01.1&now=tart-1.1")
    assert len(queries) <= 24
