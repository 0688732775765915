"""Groups and learners: who needs to know reads, the lecturer of the group writes, reading is noted."""

import pytest

from curriculum.foods.models import Avoidance
from curriculum.people.models import Adjustment
from curriculum.records.models import HealthRead
from kitchen.lessons.models import Lesson
from tests.builders.cast import TODAY, build_cast
from tests.builders.lessons import an_adjustment, avoids, more_learners

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    cast = build_cast()
    avoids(cast, cast.learner, kind="milk")
    an_adjustment(cast, cast.learner)
    return cast


def page(client, user, url):
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client.get(url).content.decode()


@pytest.mark.parametrize("who", ["lecturer", "cover", "stores", "technician"])
def test_whose_work_needs_it_reads_what_a_group_avoids(cast, client, who):
    html = page(client, getattr(cast, who), "/groups/BK1/")
    assert '<span class="allergen">milk</span>' in html
    assert HealthRead.objects.get().reader == getattr(cast, who)


@pytest.mark.parametrize("who", ["manager", "other_lecturer"])
def test_nobody_else_does(cast, client, who):
    html = page(client, getattr(cast, who), "/groups/BK1/")
    assert "Learner N100" in html
    assert "milk" not in html
    assert not HealthRead.objects.exists()


def test_the_manager_sees_what_was_agreed_and_not_what_is_avoided(cast, client):
    html = page(client, cast.manager, "/learners/N100/")
    assert "extra time, 25 %" in html
    assert "milk" not in html
    assert "End it today" not in html


def test_reading_a_learner_is_noted_once_a_day(cast, client):
    for _ in range(2):
        page(client, cast.lecturer, "/learners/N100/")
    assert HealthRead.objects.filter(reader=cast.lecturer, student=cast.learner, page="learner").count() == 1


def send(client, user, url, **said):
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client.post(url, said)


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ({"what": "kind:gluten"}, ("gluten", "", None)),
        ({"what": "way:halal"}, ("", "halal", None)),
        ({"food": "butter"}, ("", "", "butter")),
    ],
)
def test_a_lecturer_notes_an_allergen_a_way_or_a_food(cast, client, said, kept):
    send(client, cast.lecturer, "/learners/N100/avoids/", severity="allergy", from_on="16 Feb 2027", **said)
    row = Avoidance.objects.latest("pk")
    assert (row.kind, row.way, row.food and row.food.code) == kept
    assert row.noted_by == cast.lecturer


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ({}, "not both and not neither"),
        ({"what": "kind:milk", "food": "butter"}, "not both and not neither"),
        ({"what": "kind:dust"}, "not listed any more"),
        ({"what": "kind:milk", "from_on": "30 Feb 2027"}, "February 2027 has 28 days."),
        ({"what": "kind:milk", "note": "x" * 301}, "Write 300 at most."),
    ],
)
def test_what_cannot_be_noted_is_said_at_its_field(cast, client, said, says):
    said = {"severity": "allergy", "from_on": "16 Feb 2027"} | said
    html = send(client, cast.lecturer, "/learners/N100/avoids/", **said).content.decode()
    assert says in html
    assert "Not noted yet." in html
    assert Avoidance.objects.count() == 1


def test_extra_time_needs_its_percentage(cast, client):
    url, said = "/learners/N101/agreed/", {"kind": "extra_time", "from_on": "16 Feb 2027"}
    assert "Extra time needs its percentage" in send(client, cast.lecturer, url, **said).content.decode()
    assert "from 1 to 100" in send(client, cast.lecturer, url, **said, percent="150").content.decode()
    assert send(client, cast.lecturer, url, **said, percent="25").status_code == 302
    assert Adjustment.objects.latest("pk").percent == 25


def test_what_ends_stays_on_file(cast, client):
    avoidance, adjustment = Avoidance.objects.get(), Adjustment.objects.get()
    send(client, cast.lecturer, f"/learners/N100/avoids/{avoidance.pk}/end/")
    send(client, cast.lecturer, f"/learners/N100/agreed/{adjustment.pk}/end/")
    avoidance.refresh_from_db()
    adjustment.refresh_from_db()
    assert avoidance.until_on == adjustment.until_on == TODAY


def test_one_learners_file_is_not_ended_under_anothers_name(cast, client):
    row = Avoidance.objects.get().pk
    assert send(client, cast.lecturer, f"/learners/N101/avoids/{row}/end/").status_code == 404


def test_an_empty_group_says_what_to_do(cast, client):
    cast.group.memberships.all().delete()
    assert "Nobody is in this group today." in page(client, cast.lecturer, "/groups/BK1/")


@pytest.mark.parametrize("learners", [3, 30])
def test_a_group_asks_the_same_number_of_questions_for_any_number_of_learners(
    cast, client, learners, django_assert_max_num_queries
):
    for student in more_learners(cast, learners):
        an_adjustment(cast, student)
        avoids(cast, student, kind="egg")
    page(client, cast.lecturer, "/groups/BK1/")
    with django_assert_max_num_queries(14):
        client.get("/groups/BK1/")


def test_a_cover_of_a_cancelled_lesson_reads_no_diet(cast, client):
    Lesson.objects.update(state=Lesson.State.CANCELLED)
    assert "milk" not in page(client, cast.cover, "/groups/BK1/")
    client.force_login(cast.cover, "django.contrib.auth.backends.ModelBackend")
    assert client.get("/learners/N100/").status_code == 404
    assert not HealthRead.objects.exists()


def test_a_learner_who_left_the_group_is_no_longer_read_by_whoever_covers_it(cast, client):
    assert "milk" in page(client, cast.cover, "/learners/N100/")
    cast.learner.memberships.update(until_on=TODAY)
    client.force_login(cast.cover, "django.contrib.auth.backends.ModelBackend")
    assert client.get("/learners/N100/").status_code == 404
