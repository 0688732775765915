"""The picture as the room sees it: the plan that rules, nobody named, empty before one is accepted."""

import pytest

from tests.builders.cast import build_cast
from tests.builders.running import planned

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast(client):
    cast = build_cast()
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    return cast


def test_before_a_plan_is_accepted_the_page_says_what_to_do(client, cast):
    text = client.get(f"/lessons/{cast.lesson.code}/time-plan/wall/").content.decode()
    assert "No time plan is accepted yet." in text
    assert client.get(f"/lessons/{cast.lesson.code}/time-plan/wall.pdf").status_code == 409


def test_the_page_draws_and_says_the_plan_that_rules_and_names_no_learner(client, cast):
    planned(cast)
    text = client.get(f"/lessons/{cast.lesson.code}/time-plan/wall/").content.decode()
    assert '<svg class="wall"' in text
    assert "Plan 1, " in text
    names = [row.student.user.name for row in cast.place.learners.all()]
    assert names and not [name for name in names if name in text]


@pytest.mark.parametrize(("query", "file"), [("", "A3"), ("?paper=A4", "A4"), ("?paper=A9", "A3")])
def test_the_paper_has_the_size_that_was_asked_for(client, cast, query, file):
    planned(cast)
    answer = client.get(f"/lessons/{cast.lesson.code}/time-plan/wall.pdf{query}")
    assert answer["Content-Type"] == "application/pdf"
    assert f"-{file}.pdf" in answer["Content-Disposition"]
