import pytest

from curriculum.recipes import actions, queries
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.approval.queries import sent_back_to, stands, to_look_at, waiting_words
from tests.builders.book import a_book, a_copy, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def _sent(count, by):
    made = [
        actions.write_recipe(recipe=a_copy(college_recipe("R02"), number), by=by)
        for number in range(1, count + 1)
    ]
    return [approval.send_for_check(version=version, by=by) for version in made]


def test_a_sent_version_waits_for_everybody_but_its_writer():
    a_book()
    odile, solveig = a_person("odile"), a_person("solveig")
    first, second = _sent(2, odile)
    assert to_look_at(solveig) == [first, second] and to_look_at(odile) == []
    approval.check(version=first, by=solveig)
    assert to_look_at(solveig) == [first, second]
    assert [stands(each)[1] for each in to_look_at(solveig)] == [
        "checked, to be approved",
        "sent, to be checked",
    ]
    approval.send_back(version=second, by=solveig, words="No cue.")
    assert to_look_at(solveig) == [first]
    assert stands(sent_back_to(odile)[0]) == ("swap", "sent back")
    assert sent_back_to(odile) == [second] and sent_back_to(solveig) == []
    approval.send_for_check(version=second, by=odile)
    assert sent_back_to(odile) == []


@pytest.mark.parametrize("count", [3, 30])
def test_who_waits_for_whom_takes_as_many_queries_for_three_as_for_thirty(count, django_assert_num_queries):
    a_book()
    odile, solveig = a_person("odile"), a_person("solveig")
    for version in _sent(count, odile)[: count // 3]:
        approval.send_back(version=version, by=solveig, words="No cue.")
    with django_assert_num_queries(3):
        words = [waiting_words(version) for version in to_look_at(solveig)]
    assert len(words) == count - count // 3
    with django_assert_num_queries(3):
        assert len(sent_back_to(odile)) == count // 3
    with django_assert_num_queries(3):
        assert all("waits for" in waiting_words(version) for version in queries.in_writing())
