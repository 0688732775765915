"""Opening a lot through the client."""

from uuid import uuid4

import pytest
from django.urls import reverse

from curriculum.people.queries import the_college, today_at
from kitchen.stores.models import Lot
from tests.builders.book import a_person
from tests.builders.stores import a_lot

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def hana(client):
    """The stores person, signed in."""
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def at(name):
    return reverse(f"stores:{name}", kwargs={"code": "S-1"})


def test_a_lot_is_opened_from_its_page_and_that_is_taken_back(hana):
    today = today_at(the_college())
    a_lot("fine_salt", "S-1", 100, received_on=today)
    assert at("opened") in words_of(hana.get(at("lot")))
    page = words_of(hana.post(at("opened"), {"key": uuid4(), "kind": "opened", "on": "31 Feb 2027"}))
    assert "February 2027 has 28 days." in page and 'value="31 Feb 2027"' in page
    said = {"key": uuid4(), "kind": "opened", "on": f"{today.day} {today:%b %Y}"}
    page = words_of(hana.post(at("opened"), said, follow=True))
    assert "The book says that lot S-1 is opened." in page and "by Hana" in page
    assert at("opened_undo") in page and at("opened") + '"' not in page
    page = words_of(hana.post(at("opened_undo"), {"key": uuid4(), "why": "Another pack."}, follow=True))
    assert "It is taken back" in page and Lot.objects.get(code="S-1").opened_on is None
