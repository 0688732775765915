"""First pages: a fixed number of queries, and each role's own next thing."""

from datetime import timedelta

import pytest
from django.urls import reverse

from curriculum.people.models import RoleGrant
from kitchen.lessons.models import Lesson, Place, Shift
from kitchen.rooms.models import Bench
from kitchen.stores.models import KitSet
from kitchen.website.days.technician import ahead_line
from tests.builders.cast import TODAY, build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def more_lessons(cast, count):
    for number in range(count):
        lesson = Lesson.objects.create(
            code=f"MORE{number:04}",
            title=f"Biscuits {number}",
            on=TODAY + timedelta(days=1 + number % 9),
            starts=cast.lesson.starts,
            minutes=180,
            room=cast.room,
            group=cast.group,
            lecturer=cast.lecturer,
        )
        Shift.objects.create(lesson=lesson, number=1, starts=lesson.starts, minutes=180)


@pytest.mark.parametrize("role", ["lecturer", "stores", "technician", "manager", "verifier"])
def test_a_first_page_asks_as_often_with_thirty_lessons_as_with_three(
    role, cast, client, django_assert_max_num_queries, django_assert_num_queries
):
    def counted():
        client.force_login(cast.person(role))
        with django_assert_max_num_queries(60) as queries:
            assert client.get(reverse("website:the_day")).status_code == 200
        return len(queries)

    more_lessons(cast, 3)
    few = counted()
    Lesson.objects.filter(code__startswith="MORE").delete()
    more_lessons(cast, 30)
    assert counted() == few


def test_the_lecturer_is_led_to_the_lesson(cast, client):
    client.force_login(cast.lecturer)
    page = client.get(reverse("website:the_day")).content.decode()
    assert reverse("website:lesson", kwargs={"lesson": cast.lesson.code}) in page
    assert reverse("website:lesson", kwargs={"lesson": cast.other_lesson.code}) not in page


def test_a_learner_is_led_to_the_sheet_of_the_own_bench(cast, client):
    client.force_login(cast.student)
    page = client.get(reverse("website:the_day")).content.decode()
    assert reverse("sheets:own", kwargs={"lesson": cast.lesson.code}) in page


def test_somebody_without_a_role_is_told_who_gives_one(cast, client):
    cast.lecturer.grants.update(until_on=TODAY - timedelta(days=1))
    client.force_login(cast.lecturer)
    assert "No role is given to you yet" in client.get(reverse("website:the_day")).content.decode()


def test_a_lesson_page_asks_as_often_with_thirty_places_as_with_few(
    cast, client, django_assert_max_num_queries
):
    def counted():
        client.force_login(cast.lecturer)
        with django_assert_max_num_queries(60) as queries:
            url = reverse("website:lesson", kwargs={"lesson": cast.lesson.code})
            assert client.get(url).status_code == 200
        return len(queries)

    few = counted()
    for number in range(100, 130):
        Place.objects.create(
            shift=cast.place.shift,
            bench=Bench.objects.create(room=cast.room, number=number),
            dish=cast.dish,
            version=cast.recipe_version,
            code=f"PLAC{number:04}",
        )
    assert counted() == few


def test_the_own_sheet_leads_to_the_own_bench_on_the_clock(cast, client):
    client.force_login(cast.student)
    lesson = {"lesson": cast.lesson.code}
    page = client.get(reverse("sheets:own", kwargs=lesson)).content.decode()
    assert reverse("timeplan:own_strip", kwargs=lesson) in page
    assert client.get(reverse("timeplan:own_strip", kwargs=lesson)).status_code == 200


def test_the_technician_reads_what_is_made_ahead_and_by_when(cast, client):
    cast.dish.ahead_steps = [1]
    cast.dish.ahead_on = TODAY
    cast.dish.save()
    client.force_login(cast.technician)
    page = client.get(reverse("website:the_day")).content.decode()
    assert f"Step 1 of {cast.recipe_version.recipe.title}" in page
    assert "To make ahead" in page
    KitSet.objects.create(
        lesson=cast.lesson,
        number=1,
        inputs={},
        inputs_hash="x",
        by=cast.stores,
        issued_at="2027-02-16T08:00:00Z",
    )
    page = client.get(reverse("website:the_day")).content.decode()
    assert f"Step 1 of {cast.recipe_version.recipe.title}" not in page


def test_who_is_stores_and_technician_reads_each_docket_once(cast, client):
    RoleGrant.objects.create(user=cast.technician, role="stores", from_on=TODAY)
    client.force_login(cast.technician)
    page = client.get(reverse("website:the_day")).content.decode()
    assert page.count("<h2>For the lessons</h2>") == 1
    assert "To make ahead" in page


def test_paste_that_should_be_rested_by_now_asks_for_a_hand(cast):
    cast.dish.ahead_steps = [1, 2]
    cast.dish.ahead_on = TODAY - timedelta(days=1)
    line = ahead_line(cast.dish, 3_500_000, TODAY)
    assert (line.words[:12], line.state_words, line.hand) == ("Steps 1 and ", "Overdue", True)
    assert "3,500 g in the kits to prepare." in line.detail
