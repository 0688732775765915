"""A recall through the client: looked up, read, held, printed, and back from a plate."""

from io import BytesIO
from uuid import uuid4

import pytest
from django.urls import reverse
from pypdf import PdfReader

from kitchen.stores.actions import issue_kits
from kitchen.stores.models import Lot
from tests.builders.book import a_person
from tests.builders.stores import college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
RECALL = {"lots": "MP-0710"}


@pytest.fixture
def stage():
    """Two benches whose kits have left."""
    made = quiche_stage(benches=("R01", "R01"))
    college_lots()
    kits_made(made)
    issue_kits(lesson=made.lesson, by=made.stores)
    return made


@pytest.fixture
def hana(client, stage):
    """The stores person, signed in."""
    client.force_login(stage.stores, "django.contrib.auth.backends.ModelBackend")
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def find(hana, **said):
    return hana.get(reverse("stores:find_recall"), said)


def test_a_lot_a_batch_and_a_scan_lead_to_the_recall(hana):
    Lot.objects.filter(code="MP-0710").update(batch="LOT42")
    scan = "(01)09501101530003(17)271231(10)LOT42"
    for text in ("mp-0710", "lot42", scan):
        assert find(hana, text=text).url == reverse("stores:recall", kwargs=RECALL)


def test_a_batch_of_two_suppliers_asks_for_the_supplier(hana):
    lots = Lot.objects.filter(supplier__isnull=False).order_by("supplier", "pk")
    first, last = lots[0], lots.reverse()[0]
    assert first.supplier_id != last.supplier_id
    Lot.objects.filter(pk__in=[first.pk, last.pk]).update(batch="SAME")
    assert "Choose the supplier." in words_of(find(hana, text="SAME"))
    assert find(hana, text="SAME", supplier=first.supplier_id).status_code == 302


def test_nothing_and_an_unknown_batch_are_said_at_the_field_and_kept(hana):
    page = words_of(find(hana, text="NOT-THERE"))
    assert "No lot in the book has this code or batch." in page and 'value="NOT-THERE"' in page
    assert "or choose supplier and food below" in words_of(find(hana, text=" "))


def test_a_bench_code_leads_back_to_supplier_and_batch(hana, stage):
    place = stage.lesson.shifts.get().places.first()
    answer = find(hana, text=place.code)
    assert answer.url == reverse("stores:plate", kwargs={"place": place.code})
    page = words_of(hana.get(answer.url))
    assert "MP-0710" in page and "Bench 1" in page and Lot.objects.get(code="MP-0710").supplier.name in page


def test_the_page_names_benches_learners_and_the_duty_and_promises_nothing(hana):
    page = words_of(hana.get(reverse("stores:recall", kwargs=RECALL)))
    assert "Learner G-R01-1a" in page and "178/2002" in page and "Ask Marek" in page.replace("marek", "Marek")
    assert "is safe" not in page


def test_everything_left_is_held_and_without_a_reason_nothing_is(hana):
    url = reverse("stores:recall_hold", kwargs=RECALL)
    assert "Nothing is held yet." in words_of(hana.post(url, {"key": uuid4(), "why": ""}))
    assert not Lot.objects.get(code="MP-0710").held
    assert hana.post(url, {"key": uuid4(), "why": "The supplier rang."}).status_code == 302
    assert Lot.objects.get(code="MP-0710").held


def test_the_papers_say_what_the_page_says(hana):
    texts = []
    for name in ("recall_contacts", "recall_labels"):
        answer = hana.get(reverse(f"stores:{name}", kwargs=RECALL))
        texts.append(" ".join(page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages))
    assert "Learner G-R01-1a" in texts[0] and "Bench 2" in texts[0] and "178/2002" in texts[0]
    assert "Do not use" in texts[1] and "MP-0710" in texts[1] and "not held in the book yet" in texts[1]


def test_a_lecturer_who_had_none_of_it_finds_no_recall(client, stage):
    client.force_login(a_person("odile"), "django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse("stores:recall", kwargs=RECALL)).status_code == 404


def test_a_technician_reads_holds_and_labels_and_is_not_handed_the_sheet_of_whom_to_ask(client, stage):
    client.force_login(a_person("desmond", "technician"), "django.contrib.auth.backends.ModelBackend")
    page = words_of(client.get(reverse("stores:recall", kwargs=RECALL)))
    contacts = reverse("stores:recall_contacts", kwargs=RECALL)
    assert "Hold everything left" in page and reverse("stores:recall_labels", kwargs=RECALL) in page
    assert "Bench 1" in page and contacts not in page
    assert client.get(contacts).status_code == 403
