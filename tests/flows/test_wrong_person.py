"""The wrong person sees nothing: every page that a lecturer can reach, asked for by others.

The lecturer's pages are found by following links from the first page, so that a page nobody
thought of is asked for too.
"""

import pytest
from django.urls import resolve

from tests.builders.cast import build_cast
from tests.builders.feedback import handed_back
from tests.builders.stores import a_lot
from tests.flows.person import Person, reached

pytestmark = pytest.mark.django_db

#: Pages of the college that a learner reads too.
SHARED = {
    "website:the_day",
    "website:favicon",
    "recipes:book",
    "recipes:recipe",
    "recipes:version",
    "recipes:scale",
    "recipes:compare",
    "recipes:take_out_json",
    "recipes:take_out_table",
    "recipes:take_out_text",
    "recipes:techniques",
    "recipes:technique",
    "people:look_for_me",
    "people:sign_in",
    "people:cannot_sign_in",
}


@pytest.fixture
def cast():
    made = build_cast()
    a_lot("plain_flour", "FLOUR-1")
    handed_back(made)
    return made


def private(addresses):
    return [one for one in addresses if resolve(one.split("?")[0]).view_name not in SHARED]


def statuses(user, addresses):
    client = Person(user).client
    return {address: client.get(address).status_code for address in addresses}


def open_to(user, addresses):
    """Those that are not refused."""
    return [address for address, status in statuses(user, addresses).items() if status not in (403, 404)]


@pytest.fixture
def pages(cast):
    found = private(reached(cast.lecturer))
    assert len(found) > 12, found
    return found


def test_another_student_is_refused_every_page_of_the_lecturer(cast, pages):
    assert open_to(cast.other_student, pages) == []


def test_the_lessons_own_student_reads_the_sheet_of_their_bench_and_no_other_page_of_it(cast, pages):
    bench = f"/lessons/{cast.lesson.code}/benches/{cast.place.code}/"
    assert [one for one in open_to(cast.student, pages) if not one.startswith(bench)] == []


def test_whoever_is_not_signed_in_is_sent_to_the_sign_in_page(pages):
    assert set(statuses(None, pages).values()) == {302}


def test_a_script_that_is_not_signed_in_hears_401(pages):
    client = Person(None).client
    heard = {client.get(one, headers={"accept": "application/json"}).status_code for one in pages}
    assert heard == {401}


def test_the_external_examiner_reads_no_page_of_the_lecturer_but_schemes(cast, pages):
    read = open_to(cast.external, pages)
    assert [one for one in read if not one.startswith("/schemes/")] == []


def test_what_a_student_reaches_is_their_own(cast):
    mine = private(reached(cast.student))
    assert any("/feedback/" in address for address in mine)
    assert set(open_to(cast.other_student, mine)) <= {"/feedback/"}


def test_a_second_marker_without_a_sheet_reads_no_mark(cast):
    lecturer, second = Person(cast.lecturer), Person(cast.second_marker)
    lecturer.open("marking:lesson", lesson=cast.lesson.code)
    second.open("marking:lesson", lesson=cast.lesson.code)
    lecturer.sees("39 of 100")
    assert "39 of 100" not in second.words()
    assert "/card/" not in second.page
