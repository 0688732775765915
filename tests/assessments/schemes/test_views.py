"""Pages of schemes, and the brief written, refused and checked."""

import uuid

import pytest
from django.urls import reverse

from assessments.schemes.models import Brief
from tests.builders.cast import build_cast
from tests.builders.marking import briefed, kept_scheme

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def brief_page(cast):
    return reverse("schemes:brief", kwargs={"lesson": cast.lesson.code})


def test_a_scheme_shows_its_criteria_rules_order_and_arithmetic(client, cast):
    client.force_login(cast.lecturer)
    page = client.get(reverse("schemes:scheme", kwargs={"code": kept_scheme(cast).scheme.code}))
    words = page.content.decode()
    for expected in (
        "Hygiene and safe working at 1 or less: the total is held at 39",
        "Judged criteria, then measured criteria by tolerance",
        "Not passed, from 0; pass, from 40",
        "A made-up candidate",
        "of 100</dd>",
    ):
        assert expected in words, expected


def test_the_lecturer_writes_and_another_person_checks(client, cast):
    version = kept_scheme(cast)
    client.force_login(cast.lecturer)
    sent = {"scheme": version.pk, "techniques": ["rubbing_in"], "minutes": "120", "key": str(uuid.uuid4())}
    assert client.post(brief_page(cast), sent).status_code == 302
    assert client.post(brief_page(cast), sent).status_code == 302
    assert Brief.objects.count() == 1
    assert "Waiting to be checked" in client.get(brief_page(cast)).content.decode()
    check = reverse("schemes:check", kwargs={"lesson": cast.lesson.code})
    assert "You wrote this brief" in client.post(check).content.decode()
    client.force_login(cast.verifier)
    assert "The brief is right" in client.get(brief_page(cast)).content.decode()
    assert client.post(check).status_code == 302
    page = client.get(brief_page(cast)).content.decode()
    assert "Checked" in page and "Marking waits" not in page


@pytest.mark.parametrize(
    "minutes, words",
    [("two hours", "You wrote “two hours”."), ("0", "from 10 to 600"), ("", "This is empty.")],
)
def test_a_brief_keeps_what_was_typed_and_says_what_is_wrong(client, cast, minutes, words):
    version = kept_scheme(cast)
    client.force_login(cast.lecturer)
    page = client.post(brief_page(cast), {"scheme": version.pk, "minutes": minutes, "key": str(uuid.uuid4())})
    assert words in page.content.decode()
    assert Brief.objects.count() == 0


def test_a_refusal_of_the_action_stands_at_its_field(client, cast):
    briefed(cast)
    version = kept_scheme(cast)
    client.force_login(cast.lecturer)
    page = client.post(
        brief_page(cast),
        {"scheme": version.pk, "minutes": "120", "techniques": ["poaching"], "key": str(uuid.uuid4())},
    )
    assert page.status_code == 200
    assert "Choose" in page.content.decode()
