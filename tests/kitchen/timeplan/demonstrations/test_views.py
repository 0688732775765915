"""The demonstration's pages as a lecturer and a technician use them."""

import uuid

import pytest

from kitchen.timeplan.models import DemonstrationPlan
from tests.builders.cast import build_cast
from tests.kitchen.timeplan.demonstrations.test_actions import accept

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def signed_in(client, user):
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client


def page(client, cast, query=""):
    return client.get(f"/lessons/{cast.lesson.code}/demonstration/{query}").content.decode()


def send(client, cast, what, **said):
    said = {"key": str(uuid.uuid4())} | said
    return client.post(f"/lessons/{cast.lesson.code}/demonstration/{what}/", said, follow=True)


def test_a_lecturer_takes_what_fits_and_prints_it(client, cast):
    signed_in(client, cast.lecturer)
    before = page(client, cast)
    assert "None is taken yet." in before and "Take 60" in before
    after = send(client, cast, "take", minutes="30", technique="rubbing_in").content.decode()
    assert "Taken: 30 minutes." in after
    assert DemonstrationPlan.objects.get().inputs["targets"] == ["rubbing_in"]
    pdf = client.get(f"/lessons/{cast.lesson.code}/demonstration/sheet.pdf")
    assert pdf["Content-Type"] == "application/pdf" and pdf.content.startswith(b"%PDF")


def test_a_technician_reads_it_and_takes_nothing(client, cast):
    accept(cast)
    said = page(signed_in(client, cast.technician), cast)
    assert "took 30 min." in said
    assert "<button" not in said.split("How long can you give it?")[1].split("Other minutes")[0]


def test_other_minutes_are_shown_and_wrong_ones_kept(client, cast):
    signed_in(client, cast.lecturer)
    assert "shown below" in page(client, cast, "?minutes=20")
    wrong = page(client, cast, "?minutes=a+while")
    assert "You wrote “a while”." in wrong
    assert 'value="a while"' in wrong


def test_minutes_that_hold_nothing_say_what_to_do(client, cast):
    signed_in(client, cast.lecturer)
    assert send(client, cast, "take", minutes="3").status_code == 200
    assert not DemonstrationPlan.objects.exists()


def test_stages_are_chosen_one_by_one(client, cast):
    signed_in(client, cast.lecturer)
    said = {"minutes": "16", "way_1": "live", "minutes_1": "10", "way_2": "stage_tray", "minutes_2": "4"}
    assert "Your stages are taken." in send(client, cast, "stages", **said).content.decode()
    row = DemonstrationPlan.objects.get()
    assert row.answer["shown"] == [
        {"step": 1, "minutes": 10, "way": "live"},
        {"step": 2, "minutes": 4, "way": "stage_tray"},
    ]
    again = client.get(f"/lessons/{cast.lesson.code}/demonstration/stages/").content.decode()
    assert '<option value="stage_tray" selected>' in again


def test_stages_that_are_too_long_stay_in_the_form(client, cast):
    signed_in(client, cast.lecturer)
    said = {"minutes": "12", "way_1": "live", "minutes_1": "10", "way_2": "stage_tray", "minutes_2": "4"}
    refused = send(client, cast, "stages", **said).content.decode()
    assert "The stages take 14 minutes and you give 12." in refused
    assert 'value="14"' not in refused and 'value="12"' in refused
    assert not DemonstrationPlan.objects.exists()


def test_a_form_sent_twice_is_done_once(client, cast):
    signed_in(client, cast.lecturer)
    key = str(uuid.uuid4())
    for _ in range(2):
        send(client, cast, "take", minutes="30", key=key)
    assert DemonstrationPlan.objects.count() == 1
