"""A requisition draws itself up from the kits, and goes from lecturer to stores and back."""

from uuid import uuid4

import pytest
from django.db.models import Sum

from curriculum.errors import RuleBroken
from kitchen.lessons.actions import cancel_lesson
from kitchen.lessons.models import Dish
from kitchen.stores.models import Requisition
from kitchen.stores.requisitions.actions import (
    approve_requisition,
    query_requisition,
    reply_to_query,
    submit_requisition,
    withdraw_requisition,
)
from tests.builders.stores import quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Seven pairs who make quiches."""
    return quiche_stage()


def submitted(stage, **more):
    return submit_requisition(lesson=stage.lesson, by=stage.lecturer, **more)


def test_eggs_are_pooled_in_the_order_and_weights_are_the_sums_of_the_kits(stage):
    rows = submitted(stage).lines.values("food__code").annotate(Sum("pieces"), Sum("milligrams"))
    lines = {row["food__code"]: row for row in rows}
    eggs = lines["egg_in_shell"]
    assert (eggs["pieces__sum"], eggs["milligrams__sum"]) == (35, 35 * 57_000)
    assert lines["unsalted_butter"]["milligrams__sum"] == 1_440_000
    assert "water" not in lines


def test_one_form_submits_once(stage):
    key = uuid4()
    assert submitted(stage, key=key) == submitted(stage, key=key)


def test_submitting_again_supersedes_what_was_not_approved(stage):
    first, second = submitted(stage), submitted(stage)
    first.refresh_from_db()
    assert (first.state, second.state, second.number) == ("superseded", "submitted", 2)


def test_the_stores_approve_once_and_the_one_before_is_superseded(stage):
    first = approve_requisition(requisition=submitted(stage), by=stage.stores)
    assert (first.state, first.approved_by) == ("approved", stage.stores)
    second = approve_requisition(requisition=submitted(stage), by=stage.stores)
    first.refresh_from_db()
    assert (first.state, second.state) == ("superseded", "approved")


def test_a_query_goes_back_with_its_words_and_name(stage):
    row = query_requisition(requisition=submitted(stage), words="Which cheese?", by=stage.stores)
    assert (row.state, row.query) == ("queried", "Which cheese? (Hana)")


def test_only_what_is_submitted_is_decided(stage):
    row = approve_requisition(requisition=submitted(stage), by=stage.stores)
    for decide, more in ((approve_requisition, {}), (query_requisition, {"words": "Why?"})):
        with pytest.raises(RuleBroken) as refused:
            decide(requisition=row, by=stage.stores, **more)
        assert "This requisition is approved." in refused.value.message


def test_a_lesson_without_a_dish_asks_for_nothing(stage):
    stage.lesson.shifts.get().places.all().delete()
    Dish.objects.all().delete()
    with pytest.raises(RuleBroken) as refused:
        submitted(stage)
    assert refused.value.code == "nothing_needed" and not Requisition.objects.exists()


def test_an_answer_sends_the_same_requisition_back_to_the_stores(stage):
    row = query_requisition(requisition=submitted(stage), words="Which cheese?", by=stage.stores)
    row = reply_to_query(requisition=row, words="The mature one.", by=stage.lecturer)
    assert (row.state, row.number, row.reply) == ("submitted", 1, f"The mature one. ({stage.lecturer.name})")
    assert approve_requisition(requisition=row, by=stage.stores).state == "approved"


def test_only_what_was_queried_is_answered(stage):
    with pytest.raises(RuleBroken) as refused:
        reply_to_query(requisition=submitted(stage), words="Yes.", by=stage.lecturer)
    assert refused.value.code == "not_queried"


def test_what_nobody_approved_is_withdrawn_and_what_was_approved_stays(stage):
    first = approve_requisition(requisition=submitted(stage), by=stage.stores)
    second = withdraw_requisition(requisition=submitted(stage), why="No.", by=stage.lecturer)
    first.refresh_from_db()
    assert (first.state, second.state) == ("approved", "withdrawn")
    with pytest.raises(RuleBroken) as refused:
        withdraw_requisition(requisition=first, why="No.", by=stage.lecturer)
    assert refused.value.code == "not_open"


def test_one_that_is_submitted_after_an_approval_amends_it_and_keeps_what_it_was_reckoned_from(stage):
    first = approve_requisition(requisition=submitted(stage), by=stage.stores)
    second = submitted(stage)
    assert (first.amends, second.amends, second.inputs["portions"]) == (None, first, 8)


def test_a_cancelled_lesson_asks_for_nothing_and_nothing_of_it_is_approved(stage):
    row = submitted(stage)
    cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    for act in (lambda: submitted(stage), lambda: approve_requisition(requisition=row, by=stage.stores)):
        with pytest.raises(RuleBroken) as refused:
            act()
        assert refused.value.code == "lesson_cancelled"
