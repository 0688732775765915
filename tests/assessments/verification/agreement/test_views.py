"""The page of agreement: read from sheets that are in, at a fixed number of queries."""

import pytest
from django.urls import reverse

from assessments.marking.actions import name_marker, open_sittings, submit_sheet
from assessments.marking.models import Sheet, Sitting
from tests.builders.cast import build_cast
from tests.builders.marking import GOOD, briefed, filled, marked, more_learners

pytestmark = pytest.mark.django_db
PAGE = "/agreement/hundred_points/"


@pytest.fixture
def cast():
    return build_cast()


def marked_by_two(cast, learners, second_in=True):
    """So many more learners; the second marker gives one thing two steps less than the lecturer."""
    more_learners(cast, range(1, learners + 1))
    briefed(cast)
    open_sittings(lesson=cast.lesson, by=cast.lecturer)
    name_marker(lesson=cast.lesson, marker=cast.second_marker, by=cast.lecturer)
    for sitting in Sitting.objects.filter(brief__lesson=cast.lesson):
        for sheet in sitting.sheets.order_by("pk"):
            first = sheet.part == Sheet.Part.FIRST
            filled(sheet, GOOD if first else {**GOOD, "texture": 6})
            if first or second_in:
                submit_sheet(sheet=sheet, by=sheet.marker)


def test_the_addresses_are_these():
    assert reverse("verification:agreement", kwargs={"code": "hundred_points"}) == PAGE


def test_with_plates_enough_the_verifier_reads_figures(client, cast):
    marked_by_two(cast, 10)
    client.force_login(cast.verifier)
    page = client.get(PAGE).content.decode()
    assert "+2 (+2 to +2)" in page and "0 of 12, 0\N{NO-BREAK SPACE}%" in page
    assert "too few" not in page
    assert "points more than the others on average" in page


def test_with_few_plates_there_are_counts(client, cast):
    marked_by_two(cast, 1)
    client.force_login(cast.external)
    page = client.get(PAGE).content.decode()
    assert "too few" in page and "too few plates for a figure" in page


def test_a_sitting_with_one_marker_is_not_counted(client, cast):
    marked(cast, GOOD)
    client.force_login(cast.manager)
    assert "0<small> sittings" in client.get(reverse("verification:agreements")).content.decode()
    assert "No plate was marked twice yet." in client.get(PAGE).content.decode()


def test_both_pages_count_alike(client, cast):
    marked_by_two(cast, 3)
    client.force_login(cast.manager)
    assert "5<small> sittings" in client.get(reverse("verification:agreements")).content.decode()
    assert "in 5 sittings" in client.get(PAGE).content.decode()


def test_nothing_shows_before_the_second_sheet_is_in(client, cast):
    marked_by_two(cast, 1, second_in=False)
    client.force_login(cast.verifier)
    assert "No plate was marked twice yet." in client.get(PAGE).content.decode()
    schemes = client.get(reverse("verification:agreements")).content.decode()
    assert PAGE not in schemes and "No plate was marked twice yet." in schemes


@pytest.mark.parametrize("learners", [3, 30])
def test_the_page_asks_the_same_whoever_many_were_marked(
    client, cast, learners, django_assert_max_num_queries
):
    marked_by_two(cast, learners)
    client.force_login(cast.verifier)
    with django_assert_max_num_queries(14):
        client.get(PAGE)
    with django_assert_max_num_queries(8):
        assert PAGE in client.get(reverse("verification:agreements")).content.decode()
