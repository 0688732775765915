"""The page of lots that end soon: words, and waste one tap away."""

import pytest
from django.urls import reverse

from curriculum.people.queries import the_college, today_at
from tests.builders.book import a_person
from tests.builders.stores import a_lot

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def test_a_lot_that_is_gone_is_offered_for_waste_as_out_of_date(client):
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    assert "Nothing ends soon" in client.get(reverse("stores:expiring")).content.decode()
    today = today_at(the_college())
    a_lot("unsalted_butter", "GONE", date_kind="use_by", dated_on=today.replace(year=today.year - 1))
    page = client.get(reverse("stores:expiring")).content.decode()
    assert f"{reverse('stores:waste', kwargs={'code': 'GONE'})}?why=out_of_date" in page
