"""The label of one lot through the client: kind by kind, or the same as another pack, said for this one."""

from uuid import uuid4

import pytest
from django.urls import reverse

from kitchen.stores.lots.forms import FACTS
from kitchen.stores.models import Lot
from tests.builders.book import a_person
from tests.builders.stores import a_lot

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
ANSWERS = dict.fromkeys(FACTS, "unknown")


@pytest.fixture
def hana(client):
    """The stores person, signed in."""
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def at(name, code="B-1"):
    return reverse(f"stores:{name}", kwargs={"code": code})


def unread(code):
    return a_lot("unsalted_butter", code, label_read_on=None)


def test_nothing_is_ticked_before_and_nothing_ticked_is_refused(hana):
    unread("B-1")
    page = words_of(hana.get(at("lot_label")))
    assert "checked" not in page and "Nobody has read this pack yet." in page
    page = words_of(hana.post(at("lot_label"), {"key": uuid4(), **ANSWERS}))
    assert "Nothing is ticked." in page and Lot.objects.get().label_read_on is None


def test_packs_to_read_stand_on_the_page_of_labels_until_they_are_read(hana):
    unread("B-1")
    assert at("lot_label") in words_of(hana.get(reverse("stores:labels")))
    said = {"key": uuid4(), **ANSWERS, "contains": ["milk"]}
    page = words_of(hana.post(at("lot_label"), said, follow=True))
    assert "Every pack in the stores is read." in page


def test_the_same_label_asks_that_this_pack_was_read_too(hana):
    a_lot("unsalted_butter", "B-0", contains=("milk",))
    unread("B-1")
    said = {"same-key": uuid4(), "same-same_as": "B-0:milk:"}
    page = words_of(hana.post(at("same_label"), said))
    assert "Read this pack too" in page and Lot.objects.get(code="B-1").label_read_on is None
    hana.post(at("same_label"), said | {"same-read_here": "on"})
    lot = Lot.objects.get(code="B-1")
    assert lot.label_allergens == ["milk"] and lot.label_readings.get().same_as.code == "B-0"


def test_the_same_label_is_what_the_page_showed_and_not_what_it_says_by_now(hana):
    a_lot("unsalted_butter", "B-0", contains=("milk", "soya"))
    unread("B-1")
    assert "B-0:milk,soya:" in words_of(hana.get(at("lot_label")))
    Lot.objects.filter(code="B-0").update(label_allergens=["milk"])
    said = {"same-key": uuid4(), "same-same_as": "B-0:milk,soya:", "same-read_here": "on"}
    page = words_of(hana.post(at("same_label"), said))
    assert "written anew since this page was opened" in page
    assert Lot.objects.get(code="B-1").label_read_on is None


def test_a_pack_that_names_more_says_so_and_the_food_may_name_it_too(hana):
    unread("B-1")
    said = {"key": uuid4(), **ANSWERS, "contains": ["milk", "soya"]}
    page = words_of(hana.post(at("lot_label"), said, follow=True))
    assert "This pack names soya, and the label of the food does not" in page
    page = words_of(hana.post(at("widen_label"), follow=True))
    assert "names it too" in page and "This pack names soya" not in page


@pytest.mark.parametrize("lots", [3, 30])
def test_the_pages_of_labels_take_a_fixed_number_of_queries(hana, lots, django_assert_num_queries):
    for number in range(lots):
        unread(f"B-{number}")
    with django_assert_num_queries(8):
        hana.get(reverse("stores:labels"))
    with django_assert_num_queries(8):
        hana.get(at("lot_label"))
    with django_assert_num_queries(14):
        hana.get(at("lot"))
