"""The learner reads their own feedback once it is out; the lecturer drafts and hands back."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from assessments.feedback.actions import hand_back
from assessments.feedback.models import Draft, HandedBack
from assessments.marking.actions import open_sittings, submit_sheet
from assessments.marking.models import Sheet, Sitting
from tests.builders.cast import build_cast
from tests.builders.feedback import FAULTS, handed_back, weakly_marked
from tests.builders.marking import WEAK, filled, marked, more_learners

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def page(client, user, name, **kwargs):
    client.force_login(user)
    return client.get(reverse(f"feedback:{name}", kwargs=kwargs))


def where(cast, learner=None):
    return {"lesson": cast.lesson.code, "learner": (learner or cast.learner).college_number}


def test_a_learner_sees_nothing_before_it_is_handed_back(client, cast):
    sitting = weakly_marked(cast)
    words = page(client, cast.student, "list").content.decode()
    assert "Nothing has been handed back to you yet." in words
    assert "39" not in words.split("<main")[1]
    assert page(client, cast.student, "own", code=sitting.code).status_code == 404
    assert page(client, cast.student, "paper", code=sitting.code).status_code == 404


def test_a_learner_reads_marks_cue_cause_remedy_and_the_next_step(client, cast):
    given = handed_back(cast)
    words = page(client, cast.student, "own", code=given.sitting.code).content.decode()
    for expected in (
        "39 <small>of 100</small>",
        "Seen: The crumb is greasy and clumps.",
        "Why: The fat was soft",
        "Do: Chill the bowl",
        "Wait for: Fine crumbs that hold when pressed.",
        "This moves rubbing in from 1 to 2: 10 points.",
        "Hygiene below the standard: held at 39",
    ):
        assert expected in words, expected


def test_a_partner_at_the_same_bench_finds_nothing_there(client, cast):
    given = handed_back(cast)
    assert page(client, cast.partner.user, "own", code=given.sitting.code).status_code == 404


def test_the_paper_is_a_pdf_of_the_learners_own(client, cast):
    given = handed_back(cast)
    answer = page(client, cast.student, "paper", code=given.sitting.code)
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_a_draft_keeps_what_was_written_and_refuses_words_about_the_person(client, cast):
    marked(cast, WEAK)
    first = page(client, cast.lecturer, "write", **where(cast))
    form = first.context["form"]
    data = {name: form[name].value() or "" for name in form.fields}
    number = next(name for name in data if name.startswith("fault_")).removeprefix("fault_")
    address = reverse("feedback:write", kwargs=where(cast))
    refused = client.post(address, {**data, f"why_{number}": "Lazy work"})
    assert "“Lazy” is about the person" in refused.content.decode()
    assert "Lazy work" in refused.content.decode()
    assert Draft.objects.count() == 0
    assert client.post(address, {**data, f"fault_{number}": "rubbing_in_1"}).status_code == 302
    again = page(client, cast.lecturer, "write", **where(cast)).content.decode()
    assert "The fat was soft and warm hands worked it too long" in again


def test_what_is_wanting_is_named_and_the_button_waits(client, cast):
    marked(cast, WEAK)
    words = page(client, cast.lecturer, "write", **where(cast)).content.decode()
    assert "Rubbing in, 1 of 3: choose a fault or write why it happened." in words
    assert 'disabled aria-describedby="wanting"' in words


def test_all_that_is_ready_is_handed_back_and_the_rest_is_named(client, cast):
    weakly_marked(cast)
    client.force_login(cast.lecturer)
    answer = client.post(reverse("feedback:hand_back_all", kwargs={"lesson": cast.lesson.code}), follow=True)
    words = answer.content.decode()
    assert "Handed back: 1." in words
    assert "Learner N101: The mark sheets of this sitting are not all in yet." in words


def test_what_was_handed_back_is_read_and_not_written_any_more(client, cast):
    handed_back(cast)
    words = page(client, cast.lecturer, "write", **where(cast)).content.decode()
    assert "it stays as it was given" in words
    assert "Keep the draft" not in words


def queries_of(client, address):
    """So many queries does a page take, the first visit (which writes the session) not counted."""
    client.get(address)
    with CaptureQueriesContext(connection) as asked:
        assert client.get(address).status_code == 200
    return len(asked)


def test_lists_ask_as_often_with_thirty_as_with_three(client, cast):
    address = reverse("feedback:lesson", kwargs={"lesson": cast.lesson.code})
    more_learners(cast, [0])
    handed_back(cast)
    client.force_login(cast.lecturer)
    few = queries_of(client, address)
    more_learners(cast, range(1, 28))
    open_sittings(lesson=cast.lesson, by=cast.lecturer)
    for sheet in Sheet.objects.filter(submitted_at=None)[:10]:
        submit_sheet(sheet=filled(sheet, WEAK, FAULTS), by=sheet.marker)
        hand_back(sitting=sheet.sitting, by=cast.lecturer)
    assert queries_of(client, address) == few
    assert few <= 20


def test_a_learners_list_asks_as_often_for_many_as_for_one(client, cast):
    given = handed_back(cast)
    client.force_login(cast.student)
    one = queries_of(client, reverse("feedback:list"))
    for attempt in range(2, 12):
        sitting = Sitting.objects.create(
            brief=given.sitting.brief,
            student=cast.learner,
            code=f"AGAIN{attempt:03d}",
            attempt=attempt,
            minutes=135,
        )
        HandedBack.objects.create(sitting=sitting, number=1, content=given.content, by=cast.lecturer)
    assert queries_of(client, reverse("feedback:list")) == one
