"""Lots that end soon with the lessons that could use them; the first page of the stores shows them."""

from datetime import timedelta

import pytest

from curriculum.foods.models import Food
from kitchen.lessons.models import Lesson
from kitchen.stores.actions import issue_kits
from kitchen.stores.lots.actions import hold_lot
from kitchen.stores.models import Lot
from kitchen.stores.moves.expiring.queries import expiring
from tests.builders.stores import QUICHE_DAY, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
TODAY = QUICHE_DAY - timedelta(1)


@pytest.fixture
def stage():
    """A quiche lesson tomorrow."""
    return quiche_stage(benches=("R01", "V1"))


def ends(code, days, kind="use_by", food="unsalted_butter"):
    return a_lot(food, code, date_kind=kind, dated_on=TODAY + timedelta(days))


def row_of(code):
    return next(row for row in expiring(TODAY) if row.lot.code == code)


def test_lots_come_by_their_last_day_with_the_lesson_that_could_use_them(stage):
    ends("LATER", 3), ends("FIRST", 1), ends("FAR", 15), a_lot("unsalted_butter", "UNDATED")
    rows = expiring(TODAY)
    assert [row.lot.code for row in rows] == ["FIRST", "LATER"]
    assert rows[0].lessons == (stage.lesson,) and rows[0].left == "1 day left"


def test_what_ends_before_the_lesson_or_is_no_food_of_it_goes_into_none(stage):
    ends("TODAY", 0), ends("OTHER", 5, food="instant_coffee")
    assert row_of("TODAY").lessons == () == row_of("OTHER").lessons


def test_past_use_by_is_gone_and_past_best_before_is_not(stage):
    ends("GONE", -1), ends("STALE", -1, "best_before")
    assert (row_of("GONE").gone, row_of("GONE").lessons) == (True, ())
    assert (row_of("STALE").gone, row_of("STALE").lessons) == (False, (stage.lesson,))


def test_eggs_go_into_a_recipe_that_takes_them_beaten(stage):
    egg = Food.objects.get(code="egg_in_shell")
    ends("EGGS", 2, food=egg.code)
    assert row_of("EGGS").lessons == (stage.lesson,)


def test_a_held_lot_a_cancelled_lesson_and_one_whose_kits_have_left_use_nothing(stage):
    lot = ends("FIRST", 1)
    hold_lot(lot=lot, why="Smells.", by=stage.stores)
    assert row_of("FIRST").lessons == ()
    Lot.objects.update(held=False)
    Lesson.objects.update(state=Lesson.State.CANCELLED)
    assert row_of("FIRST").lessons == ()
    Lesson.objects.update(state=Lesson.State.APPROVED)
    assert row_of("FIRST").lessons == (stage.lesson,)


def test_a_lesson_whose_kits_have_left_needs_no_more():
    made = quiche_stage(benches=("R01", "R01"))
    college_lots()
    ends("FIRST", 3)
    kits_made(made)
    issue_kits(lesson=made.lesson, by=made.stores, short_accepted=True)
    assert row_of("FIRST").lessons == ()


@pytest.mark.parametrize("often", [3, 30])
def test_it_takes_as_many_queries_for_thirty_lots_as_for_three(stage, often, django_assert_num_queries):
    for number in range(often):
        ends(f"B-{number}", 3)
    with django_assert_num_queries(5):
        assert len(expiring(TODAY)) == often
