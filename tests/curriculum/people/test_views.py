"""Signing in and out, and how the site looks for one person."""

import pytest

from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    cast = build_cast()
    cast.lecturer.set_password("Rolling pin 7")
    cast.lecturer.save()
    return cast


def test_a_name_is_the_same_in_any_case(cast, client):
    answer = client.post("/sign-in/", {"username": "LECTURER", "password": "Rolling pin 7"})
    assert answer.headers["Location"] == "/"


def test_a_wrong_password_is_not_told_from_an_unknown_name(cast, client):
    wrong, unknown = (
        client.post("/sign-in/", {"username": name, "password": "x"}).content.decode()
        for name in ("lecturer", "nobody")
    )
    assert "The name and the password do not belong together." in wrong
    assert "Not signed in. One thing stands in the way." in wrong
    assert "The name and the password do not belong together." in unknown


def test_an_empty_form_says_which_fields(cast, client):
    html = client.post("/sign-in/", {"username": "", "password": ""}).content.decode()
    assert "Two things stand in the way." in html
    assert 'href="#id_username"' in html


def test_signing_in_goes_where_the_person_wanted_to_and_nowhere_foreign(cast, client):
    said = {"username": "lecturer", "password": "Rolling pin 7"}
    assert client.post("/sign-in/", said | {"next": "/lessons/"}).headers["Location"] == "/lessons/"
    client.post("/sign-out/")
    assert client.post("/sign-in/", said | {"next": "//elsewhere.example/"}).headers["Location"] == "/"


def test_signing_out_is_a_post(cast, client):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    assert client.get("/sign-out/").status_code == 405
    assert client.post("/sign-out/").headers["Location"] == "/sign-in/"
    assert client.get("/lessons/").status_code == 302


def test_large_print_and_the_dim_room_are_kept_with_the_account(cast, client):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    client.post("/how-it-looks/", {"large_print": "on", "dim_room": "on"})
    html = client.get("/how-it-looks/").content.decode()
    assert '<html lang="en-GB" data-room="dim" data-print="large">' in html
    client.post("/how-it-looks/", {})
    assert '<html lang="en-GB">' in client.get("/how-it-looks/").content.decode()


def test_a_name_for_paper_is_kept_and_one_that_paper_cannot_show_is_refused(cast, client):
    user = cast.lecturer
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    client.post("/how-it-looks/", {"name_to_print": "王小明"})
    user.refresh_from_db()
    assert user.name_to_print == "王小明"
    html = client.post("/how-it-looks/", {"name_to_print": "\U00013000"}).content.decode()
    assert "Paper cannot show \U00013000. Write the name with other letters." in html
    user.refresh_from_db()
    assert user.name_to_print == "王小明"
