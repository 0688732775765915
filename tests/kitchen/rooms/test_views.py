"""The pages of rooms."""

from datetime import timedelta

import pytest
from django.utils import timezone

from curriculum.people.models import College, RoleGrant, User
from kitchen.rooms.models import Closure
from tests.builders.cast import TERM, TODAY, build_cast
from tests.builders.lessons import a_room

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast(client):
    cast = build_cast()
    client.force_login(cast.technician, "django.contrib.auth.backends.ModelBackend")
    return cast


@pytest.mark.parametrize("rooms", [3, 30])
def test_the_list_asks_the_same_number_of_questions_for_any_number_of_rooms(
    cast, client, rooms, django_assert_num_queries
):
    for index in range(rooms):
        a_room(f"room-{index}", f"Kitchen {index}")
    client.get("/rooms/")
    with django_assert_num_queries(6):
        html = client.get("/rooms/").content.decode()
    assert html.count('class="line"') == rooms + 1


def test_a_room_names_its_ovens_and_what_is_closed(cast, client):
    Closure.objects.create(
        room=cast.room,
        appliance=cast.room.appliances.get(),
        from_at=timezone.now() - timedelta(days=1),
        why="Thermostat",
    )
    html = client.get("/rooms/quince/").content.decode()
    assert "2 shelves" in html
    assert "50 to 250\xa0°C" in html
    assert "Oven 1 from" in html
    assert "with no end known. Thermostat." in html


def test_a_college_without_rooms_says_where_they_come_from(client):
    College.objects.create(name="New College", short_name="New", shown_today=TODAY)
    user = User.objects.create_user(username="first", name="First Technician")
    RoleGrant.objects.create(user=user, role="technician", from_on=TERM)
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    assert "No room is entered yet." in client.get("/rooms/").content.decode()


def test_the_manager_keeps_the_list_for_learners_under_18_and_the_technician_reads_it(cast, client):
    page = client.get("/rooms/under-18/").content.decode()
    assert "Bowl chopper" in page and "With somebody beside" in page and "<form" not in page.split("<h1>")[1]
    client.force_login(cast.manager, "django.contrib.auth.backends.ModelBackend")
    answer = client.post("/rooms/under-18/", {"kinds": ["mixer", "slicer"]})
    assert answer.status_code == 302
    assert College.objects.get().settings["listed_for_young_people"] == ["mixer", "slicer"]
    client.force_login(cast.technician, "django.contrib.auth.backends.ModelBackend")
    page = client.get("/rooms/under-18/").content.decode()
    assert page.count("With somebody beside") == 2


def test_a_machine_that_the_page_does_not_offer_is_refused_at_its_field(cast, client):
    client.force_login(cast.manager, "django.contrib.auth.backends.ModelBackend")
    answer = client.post("/rooms/under-18/", {"kinds": ["trebuchet"]})
    assert answer.status_code == 200 and "What was chosen is not listed any more." in answer.content.decode()
    assert "listed_for_young_people" not in College.objects.get().settings
