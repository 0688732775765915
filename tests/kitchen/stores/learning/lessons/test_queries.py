"""What the ledger says of lessons that were held, and which lessons come."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitchen.stores.learning.lessons import queries
from kitchen.stores.learning.lessons.queries import coming_lessons, past_lessons
from kitchen.stores.learning.over_issue import taken
from kitchen.stores.learning.wastage import lost
from kitchen.stores.models import KitSet, Lot, Movement
from kitchen.stores.moves.actions import correct_movement
from tests.builders.book import a_person
from tests.builders.held_lessons import FLOUR, GRAM, a_quiche, came_back, given, held_lesson
from tests.builders.stores import QUICHE_DAY

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def flour(today=QUICHE_DAY):
    return [each for each in past_lessons(today).foods if each.food == FLOUR]


def test_a_lesson_says_what_was_planned_issued_given_back_and_thrown_away():
    lesson = held_lesson(1)
    given(lesson, 60)
    came_back(lesson, sealed=21)
    came_back(lesson, opened=9, to="Opened and not used")
    (found,) = flour()
    assert (found.lesson, found.recipe, found.benches, found.batches) == (lesson.code, "R01", 3, 3)
    assert found.planned == found.issued == 3 * 280 * GRAM
    assert (found.more, found.sealed, found.thrown) == (
        {"not_enough": 60 * GRAM},
        21 * GRAM,
        {"opened": 9 * GRAM},
    )
    assert taken(found) == 30 * GRAM
    assert found.out_why == ""


def test_a_spare_kit_that_came_back_leaves_no_trace_and_one_of_which_nobody_wrote_is_no_loss():
    back = held_lesson(1, spare_batches=1)
    came_back(back, sealed=280)
    used = held_lesson(2, spare_batches=1)
    came_back(used, sealed=0, opened=1, to="Trim and peel", food="leek")
    gone, there = sorted(flour(), key=lambda each: each.on)
    assert (there.planned, there.issued, there.sealed, there.spare_used) == (840_000, 840_000, 0, 0)
    assert (gone.planned, gone.spare_used) == (840_000, 280_000)
    assert taken(there) == taken(gone) == 20 * GRAM
    assert (lost(there), lost(gone)) == (0, 0)


def test_what_was_burnt_counts_as_lost_though_it_is_written_against_the_spare_kit():
    lesson = held_lesson(1, spare_batches=1)
    came_back(lesson, opened=200, to="Burnt or over-baked")
    (found,) = flour()
    assert found.thrown == {"burnt": 200 * GRAM}
    assert (found.spare_used, lost(found)) == (280 * GRAM, 280 * GRAM)


def test_a_correction_counts_as_what_it_corrects():
    lesson = held_lesson(1)
    given(lesson, 60)
    movement = Movement.objects.get(kind="supplementary")
    correct_movement(
        movement=movement, should_be_milligrams=30 * GRAM, reason="Misread.", by=a_person("hana", "stores")
    )
    (found,) = flour()
    assert found.more == {"not_enough": 30 * GRAM}


def test_the_demonstration_is_a_batch_like_the_benches():
    lesson = held_lesson(1, demonstration_batches=1)
    given(lesson, 40)
    (found,) = flour()
    assert (found.benches, found.batches, taken(found)) == (3, 4, 30 * GRAM)


def test_nothing_is_learned_where_nobody_wrote_down_what_came_back():
    held_lesson(1)
    assert [each.out_why for each in flour()] == ["Nobody wrote down what came back or was given later."]


def test_nothing_is_learned_from_a_cancelled_lesson():
    lesson = held_lesson(1)
    given(lesson, 60)
    lesson.state = "cancelled"
    lesson.save()
    assert [each.out_why for each in flour()] == ["The lesson was cancelled."]


def test_nothing_is_learned_from_a_lesson_of_which_a_lot_is_held():
    lesson = held_lesson(1)
    given(lesson, 60)
    Lot.objects.filter(code__startswith=lesson.code, food__code="leek").update(held=True, held_why="Recall.")
    (found,) = flour()
    assert found.out_why.startswith("Lot ") and found.out_why.endswith("is held.")


def test_a_lesson_of_today_teaches_when_it_was_run_and_one_of_long_ago_no_more():
    today = held_lesson(0)
    given(today, 60)
    long_ago = held_lesson(53)
    given(long_ago, 60)
    assert [each.lesson for each in flour()] == [today.code]
    today.state = "approved"
    today.save()
    assert flour() == []


def test_over_issue_learned_by_the_time_the_kits_were_made_is_what_the_kits_held():
    lesson = held_lesson(1)
    given(lesson, 30)
    learned = [{"kind": "over_issue", "food": FLOUR, "of": "R01", "amount": 25_000, "source": ""}]
    kit_set = KitSet.objects.get(lesson=lesson)
    kit_set.inputs |= {"learned": learned}
    kit_set.save()
    assert [each.given for each in flour()] == [25_000]


def test_of_a_recipe_only_the_newest_lessons_teach(monkeypatch):
    lessons = [held_lesson(week, benches=1) for week in (3, 1, 2)]
    monkeypatch.setattr(queries, "MOST_A_RECIPE", 2)
    assert [each.lesson for each in flour()] == [lessons[2].code, lessons[1].code]


def test_the_code_of_a_movement_counts_and_not_its_words():
    lesson = held_lesson(1)
    came_back(lesson, opened=200, to="Left in the oven", code="burnt")
    (found,) = flour()
    assert found.thrown == {"burnt": 200 * GRAM}


def queries_of(read):
    with CaptureQueriesContext(connection) as seen:
        read(QUICHE_DAY)
    return len(seen)


def test_past_and_coming_lessons_are_read_in_as_many_queries_for_three_as_for_nine():
    for week in range(1, 4):
        given(held_lesson(week, benches=1), 10)
        a_quiche(-1, state="approved")
    few = queries_of(past_lessons), queries_of(coming_lessons)
    for week in range(4, 10):
        given(held_lesson(week, benches=2), 10)
        a_quiche(-1, state="approved")
    assert (queries_of(past_lessons), queries_of(coming_lessons)) == few
    assert few[0] <= 10 and few[1] <= 5


def test_lessons_to_come_are_those_of_four_weeks_whose_kits_are_not_made():
    soon = a_quiche(-1, benches=2, state="approved", demonstration_batches=1, spare_batches=1)
    a_quiche(-5, state="approved")
    a_quiche(-1, state="cancelled")
    held_lesson(-2, state="approved")
    (coming,) = coming_lessons(QUICHE_DAY)
    assert (coming.code, coming.portions) == (soon.code, 8)
    assert [(recipe.code, count) for recipe, count in coming.batches] == [("R01", 4)]
