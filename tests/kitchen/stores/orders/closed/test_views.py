"""The page of closed days and of filling up: closed, opened again, refused at the field."""

from datetime import timedelta
from uuid import uuid4

import pytest

from kitchen.stores.orders.models import ClosedDay, OrderRule
from tests.builders.cast import TODAY, build_cast

pytestmark = pytest.mark.django_db
PAGE = "/stores/ordering/"


@pytest.fixture
def hana(client):
    client.force_login(build_cast().stores)
    return client


def test_a_day_is_closed_shown_and_opened_again(hana):
    on = TODAY + timedelta(3)
    said = {"key": str(uuid4()), "on": on.isoformat(), "words": "Stock count"}
    assert hana.post(f"{PAGE}close/", said).status_code == 302
    assert "Stock count" in hana.get(PAGE).content.decode()
    assert hana.post(f"{PAGE}{on.isoformat()}/open/").status_code == 302
    assert not ClosedDay.objects.exists()


def test_a_day_that_has_gone_and_weeks_without_end_are_refused_at_the_field_and_kept(hana):
    gone = (TODAY - timedelta(1)).isoformat()
    page = hana.post(f"{PAGE}close/", {"key": str(uuid4()), "on": gone, "words": "Late"}).content.decode()
    assert "This day has gone." in page and gone in page
    page = hana.post(f"{PAGE}weeks/", {"weeks": "99"}).content.decode()
    assert "99" in page and not OrderRule.objects.exists()
    assert hana.post(f"{PAGE}weeks/", {"weeks": "2"}).status_code == 302


def test_what_is_no_day_is_no_page(hana):
    assert hana.post(f"{PAGE}someday/open/").status_code == 404
