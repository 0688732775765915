"""The sheet at the bench: with script, without, by JSON; blind; nothing lost to bad input."""

import json
from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from assessments.marking.actions import name_marker, open_sittings, submit_sheet
from assessments.marking.models import MarkEntry, Sheet
from curriculum.records.models import HealthRead
from tests.builders.cast import build_cast
from tests.builders.marking import (
    GOOD,
    WEAK,
    briefed,
    filled,
    first_sheet,
    marked,
    more_learners,
    opened,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def address(cast, name="sheet", **more):
    learner = {} if name == "lesson" else {"learner": cast.learner.college_number}
    return reverse(f"marking:{name}", kwargs={"lesson": cast.lesson.code, **learner, **more})


def mark(place="texture", value="7", **more):
    return {"place": place, "value": value, "key": str(uuid4()), "based_on": "0", **more}


def signed_in(client, user):
    client.force_login(user)
    return client


def test_the_sheet_asks_for_everything_and_says_when_the_plate_is_due(client, cast):
    opened(cast)
    page = signed_in(client, cast.lecturer).get(address(cast)).content.decode()
    assert "Due at the pass 11:30" in page
    for words in ("Rubbing in", "Product: texture", "Portion weight", "The crumb is greasy and clumps"):
        assert words in page
    assert "Still to mark" in page


def test_without_script_a_mark_is_kept_and_the_page_comes_back_to_its_place(client, cast):
    opened(cast)
    answer = signed_in(client, cast.lecturer).post(address(cast, "give"), mark())
    assert answer.status_code == 302
    assert answer["Location"].endswith("#slot-texture")
    entry = MarkEntry.objects.get()
    assert (entry.milli, entry.by) == (7000, cast.lecturer)


def test_with_htmx_only_the_changed_parts_come_back(client, cast):
    opened(cast)
    page = signed_in(client, cast.lecturer).post(
        address(cast, "give"), mark(), headers={"HX-Request": "true"}
    )
    words = page.content.decode()
    assert words.lstrip().startswith('<section id="slot-texture"')
    assert "<html" not in words
    assert 'id="so-far" hx-swap-oob="true"' in words
    assert "Product: texture, 7 of 10" in words


def test_a_script_gets_its_key_back_and_may_send_twice(client, cast):
    opened(cast)
    sent = mark()
    signed_in(client, cast.lecturer)
    said = [
        json.loads(client.post(address(cast, "give"), sent, headers={"Accept": "application/json"}).content)
        for _ in range(2)
    ]
    assert said[0] == said[1]
    assert (said[0]["key"], said[0]["number"], said[0]["milli"], said[0]["conflict"]) == (
        sent["key"],
        1,
        7000,
        False,
    )
    assert MarkEntry.objects.count() == 1


def test_a_script_with_an_expired_session_is_told_401_and_nothing_is_taken(client, cast):
    opened(cast)
    answer = client.post(address(cast, "give"), mark(), headers={"Accept": "application/json"})
    assert answer.status_code == 401
    assert json.loads(answer.content)["code"] == "signed_out"
    assert MarkEntry.objects.count() == 0


def test_a_script_is_told_in_words_what_was_wrong(client, cast):
    opened(cast)
    answer = signed_in(client, cast.lecturer).post(
        address(cast, "give"), mark(value="eleven"), headers={"Accept": "application/json"}
    )
    assert answer.status_code == 400
    assert json.loads(answer.content)["message"] == "You sent “eleven”. Choose a step from 0 to 10."


def test_a_figure_that_is_none_keeps_what_was_typed_and_says_what_to_write(client, cast):
    opened(cast)
    page = signed_in(client, cast.lecturer).post(
        address(cast, "give"), mark("portion_weight", "a <b>slice</b>")
    )
    words = page.content.decode()
    assert page.status_code == 200
    assert "Write a figure in g, such as 133." in words
    assert 'value="a &lt;b&gt;slice&lt;/b&gt;"' in words
    assert MarkEntry.objects.count() == 0


def test_faults_are_sent_with_the_mark(client, cast):
    opened(cast)
    signed_in(client, cast.lecturer).post(
        address(cast, "give"), mark("technique.rubbing_in", "1", faults=["rubbing_in_1"])
    )
    assert MarkEntry.objects.get().faults == ["rubbing_in_1"]


def test_a_press_of_plus_keeps_the_next_figure(client, cast):
    opened(cast)
    page = signed_in(client, cast.lecturer).get(address(cast)).content.decode()
    assert 'name="step" value="36"' in page
    client.post(address(cast, "give"), mark("portion_weight", "", step="36"))
    assert MarkEntry.objects.get().milli == 36_000


def test_undo_takes_the_last_mark_back_by_one_more_entry(client, cast):
    opened(cast)
    signed_in(client, cast.lecturer).post(address(cast, "give"), mark())
    client.post(address(cast, "undo"), {"place": "texture", "key": str(uuid4())})
    assert [row.milli for row in MarkEntry.objects.order_by("pk")] == [7000, None]
    assert "Product: texture, withdrawn" in client.get(address(cast)).content.decode()


def test_a_second_marker_sees_no_first_marks_before_both_are_in_and_neither_does_the_first(client, cast):
    sitting = opened(cast)
    name_marker(lesson=cast.lesson, marker=cast.second_marker, by=cast.lecturer)
    second = Sheet.objects.get(part="second", sitting=sitting)
    submit_sheet(sheet=filled(first_sheet(sitting)), by=cast.lecturer)
    signed_in(client, cast.second_marker)
    pages = [client.get(address(cast, name)).content.decode() for name in ("lesson", "sheet", "card")]
    assert all("88 of 100" not in page for page in pages)
    filled(second, WEAK)
    signed_in(client, cast.lecturer)
    pages = [client.get(address(cast, name)).content.decode() for name in ("lesson", "card")]
    assert all("39 of 100" not in page for page in pages)
    submit_sheet(sheet=second, by=cast.second_marker)
    both = client.get(address(cast, "card")).content.decode()
    assert "88 of 100" in both and "39 of 100" in both and "Agree a mark" in both


def test_a_verifier_reads_only_what_is_in(client, cast):
    sitting = opened(cast)
    filled(first_sheet(sitting), WEAK)
    signed_in(client, cast.verifier)
    assert "39" not in client.get(address(cast, "card")).content.decode().split("<main")[1]
    submit_sheet(sheet=first_sheet(sitting), by=cast.lecturer)
    assert "39 of 100" in client.get(address(cast, "card")).content.decode()


def test_a_submitted_sheet_refuses_marks_in_words(client, cast):
    marked(cast)
    answer = signed_in(client, cast.lecturer).post(address(cast, "give"), mark(), headers={"Referer": "/"})
    assert answer.status_code == 409
    assert "This sheet was submitted" in answer.content.decode()


def test_nobody_tastes_before_the_core_is_written_down(client, cast):
    sitting = opened(cast)
    targets = {**sitting.brief.targets, "core_decicelsius": 750, "core_seconds": 30}
    type(sitting.brief).objects.filter(pk=sitting.brief_id).update(targets=targets)
    page = signed_in(client, cast.lecturer).get(address(cast)).content.decode()
    assert "Do not taste yet: no core temperature is written down." in page
    client.post(address(cast, "give"), mark("core_not_reached", "69"))
    assert "Do not taste: the core was not reached." in client.get(address(cast)).content.decode()
    client.post(address(cast, "give"), mark("core_not_reached", "76", based_on="1"))
    assert "Do not taste" not in client.get(address(cast)).content.decode()


def test_who_tastes_is_said_to_the_marker_and_reading_it_is_noted(client, cast):
    opened(cast)
    signed_in(client, cast.lecturer).get(address(cast))
    assert HealthRead.objects.count() == 0
    cast.learner.tasting_note = "Tastes no fish: another taster is used."
    cast.learner.save()
    page = client.get(address(cast)).content.decode()
    assert "another taster is used. A learner who may not taste is tasted for by another person" in page
    read = HealthRead.objects.get()
    assert (read.reader, read.student, read.page) == (cast.lecturer, cast.learner, "mark sheet")


@pytest.mark.parametrize("name", ["lesson", "sheet"])
def test_a_page_asks_as_often_with_thirty_learners_as_with_three(client, cast, name):
    def queries():
        with CaptureQueriesContext(connection) as asked:
            assert client.get(address(cast, name)).status_code == 200
        return len(asked)

    more_learners(cast, [0])
    sitting = opened(cast)
    filled(first_sheet(sitting), dict(list(GOOD.items())[:3]))
    signed_in(client, cast.lecturer).get(address(cast, name))
    few = queries()
    more_learners(cast, range(1, 28))
    assert len(open_sittings(lesson=cast.lesson, by=cast.lecturer)) == 30
    filled(first_sheet(sitting))
    assert queries() == few
    assert few <= 20


def test_without_a_brief_the_first_button_is_to_write_it(client):
    cast = build_cast()
    client.force_login(cast.lecturer)
    page = client.get(reverse("marking:lesson", kwargs={"lesson": cast.lesson.code})).content.decode()
    assert "Write the brief" in page
    assert "Open the mark sheets" not in page


def test_a_brief_that_waits_is_said_and_opens_nothing(client):
    cast = build_cast()
    briefed(cast)
    cast.lesson.briefs.update(checked_by=None, checked_at=None)
    client.force_login(cast.lecturer)
    page = client.get(reverse("marking:lesson", kwargs={"lesson": cast.lesson.code})).content.decode()
    assert "The brief waits to be checked" in page
    assert "Open the mark sheets" not in page
