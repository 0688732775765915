"""The page of plates proposes one for the second marker of an assessed lesson, and keeps what was typed."""

import pytest
from django.test import Client

from kitchen.lessons.models import Dish, Lesson
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def scene():
    cast = build_cast()
    client = Client()
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    return cast, client, f"/lessons/{cast.lesson.code}/plates/"


def test_an_assessed_lesson_proposes_a_plate_for_the_second_marker(scene):
    cast, client, url = scene
    assert b"One is proposed" not in client.get(url).content
    Lesson.objects.filter(pk=cast.lesson.pk).update(assessed=True)
    page = client.get(url)
    assert b"One is proposed" in page.content
    assert page.context["form"]["second_marker"].value() == 1


def test_too_many_plates_are_told_at_the_box_and_stay_typed(scene):
    _, client, url = scene
    page = client.post(url, {"tasting": "40", "key": "0d3f8f1e-6f2c-4d5f-9b7d-0f4d0d8f6a11"})
    assert page.status_code == 200 and page.context["form"]["tasting"].value() == "40"
    assert page.context["form"].errors["tasting"]


def test_a_lesson_without_a_dish_has_no_plates(scene):
    cast, client, url = scene
    cast.lesson.shifts.get().places.all().delete()
    Dish.objects.all().delete()
    assert client.get(url).status_code == 404
