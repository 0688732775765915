"""The plan page says which learned paces count, and a person may leave them aside."""

import pytest

from kitchen.timeplan.day.actions import learn
from kitchen.timeplan.day.after import Pace
from kitchen.timeplan.models import LearnedMinutes
from tests.builders.cast import build_cast
from tests.builders.running import begun, planned, tapped

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    built = build_cast()
    pace = Pace("rubbing_in", "foundation", (1300,) * 6)
    learn(lesson=built.other_lesson, pace=pace, by=built.lecturer)
    return built


@pytest.fixture
def lecturer(client, cast):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    return client


def text_of(client, cast, what=""):
    return client.get(f"/lessons/{cast.lesson.code}/time-plan/{what}").content.decode()


def choose(client, cast, minutes):
    return client.post(f"/lessons/{cast.lesson.code}/time-plan/minutes/", {"minutes": minutes})


def test_the_page_says_which_paces_the_plan_is_by(lecturer, cast):
    text = text_of(lecturer, cast)
    assert "Step 1: the foundation level took 1.3 × the recipe’s minutes in one lesson (6 timings)" in text
    assert f"accepted by {cast.lecturer.name} on" in text


def test_without_a_pace_the_page_says_nothing_of_them(lecturer, cast):
    LearnedMinutes.objects.update(state="superseded")
    assert "By which minutes" not in text_of(lecturer, cast)


def test_the_recipes_own_minutes_are_chosen_and_left_again(lecturer, cast):
    assert choose(lecturer, cast, "recipe").status_code == 302
    text = text_of(lecturer, cast)
    assert "planned by the recipes’ own minutes" in text
    assert "1.3 ×" not in text
    choose(lecturer, cast, "learned")
    assert "1.3 ×" in text_of(lecturer, cast)


def test_anything_else_is_refused(lecturer, cast):
    assert choose(lecturer, cast, "mine").status_code == 409


def test_an_accepted_plan_says_that_its_paces_have_changed(lecturer, cast):
    planned(cast)
    pace = Pace("rubbing_in", "foundation", (1600,) * 9)
    learn(lesson=cast.other_lesson, pace=pace, by=cast.lecturer)
    text = text_of(lecturer, cast)
    assert "Plan 1 was computed from other paces" in text
    assert "The lesson has changed since" not in text


def test_the_chances_say_what_was_learned_and_that_a_spread_needs_more(lecturer, cast):
    text = text_of(lecturer, cast, "chances/")
    assert "since a spread needs ten timings: rubbing in (6 timings)" in text


def test_the_day_teaches_the_recipes_minutes_though_the_plan_counts_by_a_pace(lecturer, cast):
    """10 min in the recipe, 13 in the plan, 12 on the day: 1.2 is taught."""
    begun(cast, 40)
    tapped(cast, "started", "1", 1, 0, ago=20)
    tapped(cast, "done", "1", 1, 0, ago=8)
    text = lecturer.get(f"/lessons/{cast.lesson.code}/day/after/").content.decode()
    assert "12 min where the recipe says 10 min, from one timed step." in text
    assert "Kept at this level: 1.3 × the recipe’s minutes, from six timings in one lesson." in text
