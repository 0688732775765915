"""Waste between two days comes out of the ledger, corrected, by the lesson it was of."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from curriculum.people.queries import the_college, today_at
from kitchen.stores.models import Movement
from kitchen.stores.moves.actions import correct_movement, waste_from_lot
from kitchen.stores.moves.lesson.actions import take_back_from_lesson
from kitchen.stores.moves.lesson.back import CameBack
from kitchen.stores.moves.lesson.queries import lots_out
from kitchen.stores.moves.wasted.queries import NO_LESSON, NO_REASON, waste_page, wasted_between
from tests.builders.book import a_person
from tests.builders.lessons_left import left_stage
from tests.builders.stores import QUICHE_DAY, a_lot

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def day():
    """The day on which the rows of these tests are written."""
    return timezone.localdate()


def thrown(lot, milligrams, code, words="Dropped"):
    by = a_person("hana", "stores")
    waste_from_lot(lot=lot, milligrams=milligrams, reason=words, reason_code=code, by=by)


def test_a_span_holds_its_days_and_no_others(day):
    lot = a_lot("fine_salt", "S-1", 100)
    thrown(lot, 2_700, "dropped"), thrown(lot, 1_000, None, "Long ago")
    rows = wasted_between(day, day)
    assert [(each.reason, each.lesson, each.milligrams) for each in rows] == [
        ("Dropped", NO_LESSON, 2_700),
        (NO_REASON, NO_LESSON, 1_000),
    ]
    assert (
        wasted_between(day - timedelta(9), day - timedelta(1))
        == wasted_between(day + timedelta(1), day + timedelta(1))
        == ()
    )


def test_a_correction_counts_under_the_reason_it_corrects(day):
    lot = a_lot("fine_salt", "S-1", 100)
    thrown(lot, 5_000, "dropped"), thrown(lot, 3_000, "burnt", "Burnt or over-baked")
    by = a_person("hana", "stores")
    for number, should in ((2, 2_000), (3, 0)):
        movement = Movement.objects.get(lot=lot, number=number)
        correct_movement(movement=movement, should_be_milligrams=should, reason="Misread", by=by)
    (row,) = wasted_between(day, day)
    assert (row.reason, row.milligrams) == ("Dropped", 2_000)


def test_what_a_lesson_threw_away_stands_by_its_lesson_and_on_its_day_with_its_price(day):
    stage = left_stage()
    lot = next(lot for lot, _ in lots_out(stage.lesson) if lot.food.code == "unsalted_butter")
    came = CameBack(lot.pk, 0, 50_000, "Burnt or over-baked", "burnt")
    take_back_from_lesson(lesson=stage.lesson, rows=[came], sealed_and_cold=False, by=stage.stores)
    assert wasted_between(day, day) == ()
    page = waste_page(QUICHE_DAY, QUICHE_DAY)
    (row,) = page.rows
    assert row.lesson.startswith(stage.lesson.title) and row.milligrams == 50_000 and row.exact_pence
    assert (
        page.by_reason[0].name == "Burnt or over-baked" and page.together.pence == page.by_food[0].pence > 0
    )


@pytest.mark.parametrize("often", [3, 30])
def test_the_page_takes_a_fixed_number_of_queries(client, often, django_assert_num_queries, day):
    for number in range(often):
        thrown(a_lot("fine_salt", f"S-{number}", 100), 1_000, "dropped")
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    said = {"first": f"{day - timedelta(1):%Y-%m-%d}", "last": f"{day:%Y-%m-%d}"}
    with django_assert_num_queries(10):
        page = client.get(reverse("stores:waste_by_reason"), said)
    assert page.context["page"].together.milligrams == often * 1_000


def test_days_that_cannot_be_are_said_at_their_field_and_the_table_is_not_there(client):
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    said = {"first": "2027-02-16", "last": "2027-02-15"}
    page = client.get(reverse("stores:waste_by_reason"), said).content.decode()
    assert "This day lies before the first." in page and 'value="2027-02-16"' in page
    assert client.get(reverse("stores:waste_csv"), said).status_code == 404
    proposed = client.get(reverse("stores:waste_by_reason")).context["form"].initial
    assert proposed["last"] == today_at(the_college())


def test_the_table_is_a_file(client, day):
    thrown(a_lot("fine_salt", "S-1", 100), 2_700, "dropped")
    client.force_login(a_person("hana", "stores"), "django.contrib.auth.backends.ModelBackend")
    said = {"first": f"{day:%Y-%m-%d}", "last": f"{day:%Y-%m-%d}"}
    answer = client.get(reverse("stores:waste_csv"), said)
    assert answer["Content-Type"] == "text/csv; charset=utf-8" and ",2.7," in answer.content.decode()
