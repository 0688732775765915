"""The page of a plan's chances: drawn from the plan on the page, by the group that was chosen."""

import pytest

from kitchen.lessons.models import Place, PlaceLearner
from kitchen.rooms.models import Bench
from tests.builders.cast import build_cast
from tests.builders.lessons import more_learners

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


@pytest.mark.parametrize("count", [3, 30])
def test_the_chances_take_the_same_queries_with_3_and_with_30_benches(
    page, cast, count, django_assert_num_queries
):
    shift = cast.lesson.shifts.get()
    for number, student in enumerate(more_learners(cast, count), 3):
        bench = Bench.objects.create(room=cast.room, number=number)
        place = Place.objects.create(
            shift=shift, bench=bench, dish=cast.dish, version=cast.recipe_version, code=f"QR{number:06d}"
        )
        PlaceLearner.objects.create(place=place, shift=shift, student=student)
    with django_assert_num_queries(22):
        assert page().status_code == 200
