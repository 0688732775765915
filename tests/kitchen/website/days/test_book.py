import pytest

from curriculum.recipes import actions
from curriculum.recipes.approval import actions as approval
from kitchen.website.days.book import book_sections
from tests.builders.book import a_book, a_copy, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def _sent(count, by):
    copies = [a_copy(college_recipe("R02"), number) for number in range(count)]
    versions = [actions.write_recipe(recipe=copy, by=by) for copy in copies]
    return [approval.send_for_check(version=version, by=by) for version in versions]


def test_each_reads_what_waits_for_them_and_nobody_what_is_their_own():
    a_book()
    odile, solveig = a_person("odile"), a_person("solveig")
    first, second = _sent(2, odile)
    approval.check(version=first, by=solveig)
    states = [line.state_words for line in book_sections(solveig)[0].lines]
    assert states == ["To approve", "To check"]
    assert [section.lines for section in book_sections(odile)] == [[]]
    approval.send_back(version=second, by=solveig, words="No cue at step 3.")
    back = book_sections(odile)[0]
    assert back.heading == "Recipes sent back to you" and back.lines[0].hand
    assert "“No cue at step 3.”" in back.lines[0].detail


@pytest.mark.parametrize("count", [3, 30])
def test_the_docket_takes_as_many_queries_for_three_as_for_thirty(count, django_assert_num_queries):
    a_book()
    _sent(count, a_person("odile"))
    solveig = a_person("solveig")
    with django_assert_num_queries(4):
        assert len(book_sections(solveig)[0].lines) == count
