"""The college's reasons through the client: own words, retired, taken up again; the forms follow."""

from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone

from curriculum.errors import RuleBroken
from kitchen.stores.models import Movement
from kitchen.stores.moves.listed.actions import add_reason, retire_reason
from kitchen.stores.moves.listed.models import Reason
from tests.builders.book import a_person
from tests.builders.stores import a_lot

TODAY = {"first": f"{timezone.localdate():%Y-%m-%d}", "last": f"{timezone.localdate():%Y-%m-%d}"}
pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def hana(client):
    """The stores person, signed in."""
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def add(hana, words="Left in the proofer", **more):
    said = {"key": uuid4(), "which": "waste", "words": words} | more
    return hana.post(reverse("stores:reasons"), said, follow=True)


def test_own_words_are_chosen_and_their_code_stands_on_the_movement(hana):
    assert "is on the list." in words_of(add(hana))
    a_lot("fine_salt", "S-1", 100)
    url = reverse("stores:waste", kwargs={"code": "S-1"})
    assert "Left in the proofer" in words_of(hana.get(url))
    hana.post(url, {"key": uuid4(), "amount": "10", "reason": "own-1", "note": "tray 3"})
    movement = Movement.objects.get(kind="waste")
    assert (movement.reason, movement.reason_code) == ("Left in the proofer: tray 3", "own-1")


def test_words_that_are_there_already_are_refused_at_their_field(hana):
    page = words_of(add(hana, words="dropped"))
    assert "“Dropped” is on this list already." in page and 'value="dropped"' in page
    assert not Reason.objects.exists()


def test_one_form_sent_twice_is_one_reason_and_retired_words_say_so():
    by, key = a_person("hana", "stores"), uuid4()
    said = {"which": "more", "words": "Oven ran hot", "by": by, "key": key}
    assert add_reason(**said) == add_reason(**said)
    retire_reason(which="more", code="own-1", by=by)
    with pytest.raises(RuleBroken, match="is retired. Take it up again."):
        add_reason(which="more", words="oven ran hot", by=by)


def test_a_retired_reason_is_not_offered_stays_readable_and_comes_back(hana):
    a_lot("fine_salt", "S-1", 100)
    url = reverse("stores:waste", kwargs={"code": "S-1"})
    hana.post(url, {"key": uuid4(), "amount": "10", "reason": "burnt", "note": ""})
    one = {"which": "waste", "code": "burnt"}
    hana.post(reverse("stores:retire_reason", kwargs=one))
    assert 'value="burnt"' not in words_of(hana.get(url))
    refused = hana.post(url, {"key": uuid4(), "amount": "10", "reason": "burnt", "note": ""})
    assert "What was chosen is not listed any more." in words_of(refused)
    assert "Burnt or over-baked" in words_of(hana.get(reverse("stores:lot", kwargs={"code": "S-1"})))
    assert "Burnt or over-baked" in words_of(hana.get(reverse("stores:waste_by_reason"), TODAY))
    hana.post(reverse("stores:reason_again", kwargs=one))
    assert 'value="burnt"' in words_of(hana.get(url))


def test_something_else_is_never_retired_and_an_unknown_reason_is_not_there(hana):
    page = hana.post(reverse("stores:retire_reason", kwargs={"which": "waste", "code": "other"}), follow=True)
    assert "stays, so that nobody" in words_of(page) and not Reason.objects.exists()
    for one in ({"which": "waste", "code": "no-such"}, {"which": "no-such", "code": "burnt"}):
        assert hana.post(reverse("stores:retire_reason", kwargs=one)).status_code == 404


def test_a_technician_reads_the_lists_and_has_no_buttons(client):
    client.force_login(a_person("desmond", "technician"), "django.contrib.auth.backends.ModelBackend")
    page = words_of(client.get(reverse("stores:reasons")))
    assert "Burnt or over-baked" in page and "Retire" not in page
