"""An accepted demonstration reaches the requisition and the kits, and another one says what changes."""

import uuid

import pytest
from django.test import Client

from curriculum.recipes.queries import recipe_data
from kitchen.stores import queries
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.requisitions.actions import submit_requisition
from kitchen.stores.requisitions.queries import requisition_page
from kitchen.stores.requisitions.reasons import BENCHES, FOR_TRAYS, SPARE
from kitchen.timeplan.demonstration import chosen
from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstrations.actions import accept_demonstration
from tests.builders.stores import college_lots, kits_made, quiche_stage
from tests.kitchen.timeplan.test_demonstration import QUICHE

pytestmark = pytest.mark.django_db


def shown(stage, stages=QUICHE):
    recipe = recipe_data(stage.versions["R01"])
    made = chosen(recipe, stages, 60)
    question = {"shape": 1, "recipe": recipe.code}
    return accept_demonstration(
        lesson=stage.lesson, plan=made, inputs=(question, str(uuid.uuid4())), by=stage.lecturer
    )


def page_of(stage, what="kits"):
    client = Client()
    client.force_login(stage.stores, "django.contrib.auth.backends.ModelBackend")
    return client.get(f"/lessons/{stage.lesson.code}/{what}/").content.decode()


def test_each_thing_made_before_is_a_kit_with_its_plate():
    stage = quiche_stage()
    shown(stage)
    trays = {tray.label: tray for tray in queries.trays_of(kits_made(stage))}
    assert [trays[plate].title.split(", ")[-1] for plate in ("T1", "T2", "T3")] == [
        "as far as step 2",
        "as far as step 5",
        "as far as step 8",
    ]
    assert trays["T3"].name == "Stage tray T3"
    assert any(tray.title.endswith("3 of 9 batches for stage trays") for tray in trays.values())


def test_the_requisition_asks_for_trays_on_lines_of_their_own_and_both_are_the_need():
    stage = quiche_stage()
    shown(stage)
    row = submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    butter = {line.why: line.milligrams for line in row.lines.filter(food__code="unsalted_butter")}
    assert butter == {BENCHES: 7 * 160_000, FOR_TRAYS: 3 * 130_000 + 30_000, SPARE: 160_000}
    page = requisition_page(stage.lesson)
    line = next(each for each in page.lines if each.name == "Unsalted butter")
    assert (line.amount, page.changed) == ("1,700 g", False)
    assert line.why == "kits of the benches 1,120 g, stage trays of the demonstration 420 g, spare 160 g"


def test_another_demonstration_makes_kits_and_requisition_stale_in_words():
    stage = quiche_stage()
    shown(stage)
    submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    kits_made(stage)
    assert not queries.kits_page(stage.lesson).stale
    shown(stage, (*QUICHE[:3], Shown(7, "live", 6)))
    page = queries.kits_page(stage.lesson)
    assert page.stale
    assert "Shortcrust paste for the demonstration: three batches before, two now." in page.changed
    assert requisition_page(stage.lesson).changed
    for what in ("kits", "issue"):
        said = page_of(stage, what)
        assert "The lesson has changed since these kits were made" in said
        assert "Shortcrust paste for the demonstration: three batches before, two now." in said


def test_kits_that_have_left_say_what_is_more_and_are_not_made_again():
    stage = quiche_stage(benches=("R01",) * 2)
    college_lots()
    shown(stage, QUICHE[:1])
    accept_kits(lesson=stage.lesson, by=stage.stores)
    issue_kits(lesson=stage.lesson, by=stage.stores)
    shown(stage)
    page = queries.kits_page(stage.lesson)
    assert page.changed and not page.stale
    assert "The lesson has changed since these kits left" in page_of(stage)


@pytest.mark.parametrize(
    ("read", "most"), [(queries.kit_question, 20), (queries.kits_page, 20), (requisition_page, 38)]
)
def test_trays_cost_no_query_of_their_own(read, most, django_assert_max_num_queries):
    stage = quiche_stage()
    shown(stage)
    with django_assert_max_num_queries(most):
        read(stage.lesson)
