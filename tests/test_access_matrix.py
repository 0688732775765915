"""Every URL, every method, every person: the answer is the one that the topic wrote down."""

from contextlib import contextmanager

import pytest
from django.conf import settings
from django.db import transaction
from django.test import Client
from django.urls import get_resolver, path, reverse

from tests.access_matrix import (
    PEOPLE,
    Row,
    all_rows,
    answers,
    everybody,
    listed_twice,
    unsaid_methods,
    url_names,
    without_a_row,
    without_a_url,
)
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db

ROWS = all_rows()


def project_urls():
    return list(url_names(get_resolver().url_patterns))


@pytest.fixture(scope="module")
def cast(django_db_setup, django_db_blocker):
    """One cast for the whole table; every request is taken back, and at the end the cast too."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield build_cast()
        transaction.set_rollback(True)


@pytest.fixture(scope="module")
def sessions(cast):
    """The session of each person, signed in once for the whole table; nobody has none."""
    return {person: signed_in(cast.person(person)) for person in PEOPLE}


def signed_in(user):
    """The key of this person's session, or None for whoever is not signed in."""
    if user is None:
        return None
    client = Client()
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client.cookies[settings.SESSION_COOKIE_NAME].value


def asked(cast, sessions, row, people, method=None):
    """The status that each person gets. The scene is built once; each request is taken back."""
    with taken_back():
        kwargs = row.kwargs(cast) if callable(row.kwargs) else row.kwargs
        data = row.data(cast) if callable(row.data) else row.data
        address = reverse(row.url, kwargs=kwargs)
        return {person: answer_to(sessions[person], row, method, address, data) for person in people}


def answer_to(session, row, method, address, data):
    """The status of one request by one person."""
    client = Client(headers=row.headers)
    kind = {"content_type": "application/json"} if row.json else {}
    with taken_back():
        if session is not None:
            client.cookies[settings.SESSION_COOKIE_NAME] = session
        answer = getattr(client, (method or row.method).lower())(address, data, **kind)
        if answer.streaming:
            list(answer.streaming_content)
        return answer.status_code


@contextmanager
def taken_back():
    """Whatever happens inside has not happened."""
    with transaction.atomic():
        try:
            yield
        finally:
            transaction.set_rollback(True)


def test_every_url_has_a_name_and_a_row():
    assert without_a_row(project_urls(), ROWS) == []


def test_no_url_is_listed_twice():
    assert listed_twice(project_urls()) == []


def test_every_row_speaks_of_a_url():
    assert without_a_url(project_urls(), ROWS) == []


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_each_person_gets_the_answer_of_the_table(row, cast, sessions):
    assert set(row.expect) == set(PEOPLE)
    assert asked(cast, sessions, row, PEOPLE) == row.expect


@pytest.mark.parametrize(("row", "method"), unsaid_methods(ROWS), ids=str)
def test_a_method_without_a_row_is_refused(row, method, cast, sessions):
    answer = asked(cast, sessions, row, ["lecturer"], method)
    assert answer == {"lecturer": 405}, (
        "Say which methods the view answers (require_http_methods, outermost)."
    )


def test_a_url_without_a_row_is_caught():
    pages = [path("secret/", lambda request: None, name="secret"), path("bare/", lambda request: None)]
    rows = [Row("public", "GET", everybody(200))]
    assert without_a_row(url_names(pages), rows) == ["[bare/]", "secret"]
    assert without_a_url(url_names(pages), rows) == ["GET public"]


def test_a_url_that_is_listed_twice_is_caught():
    assert listed_twice(["stores:waste", "stores:reasons", "stores:waste"]) == ["stores:waste"]


def test_a_method_nobody_spoke_of_is_caught():
    row = Row("public", "GET", everybody(200))
    assert [method for _, method in unsaid_methods([row])] == ["POST", "PUT", "PATCH", "DELETE"]


@pytest.mark.parametrize("names", ["lecturer lecturer", "lecturers", "lecturer"])
def test_a_row_that_names_nobody_twice_or_forgets_somebody_is_refused(names):
    with pytest.raises(ValueError, match="cast|No answer"):
        answers(200, names)
