"""The page of a plan's chances: drawn from the plan on the page, by the group that was chosen."""

import pytest

from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def page(client, cast):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    return lambda **query: client.get(f"/lessons/{cast.lesson.code}/time-plan/chances/", query)


def heading(answer):
    return answer.content.decode().split("<h2>")[1].split("</h2>")[0]


def test_the_page_says_how_many_classes_end_in_time_and_names_each_bench(page, cast):
    text = page().content.decode()
    assert "such class" in text
    assert "Not accepted yet" in text
    assert "Bench 1" in text


@pytest.mark.parametrize("group", ["first", "quick", "nobody", ""])
def test_any_group_is_answered_and_an_unknown_one_counts_as_practised(page, group):
    answer = page(group=group)
    assert answer.status_code == 200
    if group in ("nobody", ""):
        said = answer.content.decode().split("<h2>")[1]
        assert (
            said.split("</h2>")[0]
            == page(group="practised").content.decode().split("<h2>")[1].split("</h2>")[0]
        )


def test_the_time_plan_links_to_its_chances(client, cast, page):
    page()
    text = client.get(f"/lessons/{cast.lesson.code}/time-plan/").content.decode()
    assert f"/lessons/{cast.lesson.code}/time-plan/chances/" in text


def test_the_chances_cost_no_more_queries_than_the_time_plan(
    client, cast, page, django_assert_max_num_queries
):
    with django_assert_max_num_queries(40):
        page()
