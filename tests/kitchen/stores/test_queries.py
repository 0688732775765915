"""Pages of the stores take the same number of queries with 3 and with 30 of everything."""

from dataclasses import replace

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.foods.models import Avoidance
from curriculum.recipes.actions import write_recipe
from curriculum.recipes.queries import recipe_data
from kitchen.lessons.models import PlaceLearner
from kitchen.stores import queries
from kitchen.stores.lots.queries import label_rows, lot_page, stock_rows
from kitchen.stores.models import Lot
from kitchen.stores.requisitions.queries import requisition_page
from tests.builders.book import TERM
from tests.builders.stores import QUICHE_DAY, a_lesson_of, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def counted(read, *args):
    with CaptureQueriesContext(
        connection,
    ) as seen:
        read(*args)
    return len(seen)


def stages():
    """A lesson with 3 benches and one with 12; salt is missing in both."""
    few = quiche_stage(benches=("R01",) * 3)
    many = a_lesson_of(few.versions, "R03", ("R03",) * 12, portions=12)
    college_lots()
    Lot.objects.filter(food__code="fine_salt").update(held=True)
    return few, many


@pytest.mark.parametrize(
    ("read", "most"), [(queries.kit_question, 20), (queries.kits_page, 32), (requisition_page, 40)]
)
def test_a_lesson_is_read_in_as_many_queries_with_three_benches_as_with_twelve(read, most):
    few, many = stages()
    assert counted(read, few.lesson) == counted(read, many.lesson) <= most


def test_accepted_kits_are_read_in_as_many_queries_with_three_benches_as_with_twelve():
    few, many = stages()
    sets = [kits_made(each) for each in (few, many)]
    assert counted(queries.trays_of, sets[0]) == counted(queries.trays_of, sets[1]) <= 19
    assert counted(queries.kits_page, few.lesson) == counted(queries.kits_page, many.lesson) <= 41


def test_the_stock_and_the_labels_do_not_ask_again_for_each_lot():
    quiche_stage(benches=())
    for number in range(3):
        a_lot("fine_salt", f"A-{number}")
    few = counted(stock_rows, QUICHE_DAY), counted(label_rows)
    for number in range(27):
        a_lot("caster_sugar", f"B-{number}")
    assert (counted(stock_rows, QUICHE_DAY), counted(label_rows)) == few == (4, 2)


def test_the_page_of_a_lot_takes_the_same_queries_however_often_it_moved():
    few, many = stages()
    lot = next(lot for lot in queries.Lot.objects.select_related("food", "supplier") if lot.code == "LS-2207")
    before = counted(lot_page, lot, QUICHE_DAY)
    assert before == 6 and few and many


def test_a_free_from_kit_names_the_learner_it_is_free_for():
    stage = quiche_stage(benches=("R01", "V2"))
    student = PlaceLearner.objects.filter(place__bench__number=2).first().student
    Avoidance.objects.create(student=student, kind="egg", from_on=TERM, noted_by=stage.stores)
    trays = queries.trays_of(kits_made(stage))
    assert {tray.label: tray.free_for for tray in trays if tray.free_for} == {
        "2": (student.user.printed_name,)
    }


def test_a_draft_that_claims_otherwise_changes_nothing_of_kits_made_from_what_was_approved():
    stage = quiche_stage(benches=("R01", "V2"))
    kits = kits_made(stage)

    def said():
        lines = queries.open_lines(kits, blocked_too=True)
        return (
            {tray.label: tray.free_from for tray in queries.trays_of(kits)},
            [(need.key, need.free_from) for need in queries.needs_of(kits, lines)],
        )

    before = said()
    assert before[0]["2"] and not before[0]["1"] and {free for _, free in before[1]} == {True, False}
    for code, claims in (("R01", ("fish",)), ("V2", ())):
        approved = recipe_data(stage.versions[code])
        write_recipe(recipe=replace(approved, free_from=claims), by=stage.stores)
    assert said() == before


def test_learners_at_a_variant_are_known_for_the_note_of_who_read_what():
    stage = quiche_stage(benches=("R01", "V2"))
    assert len(queries.learners_with_variants(stage.lesson)) == 2


def test_a_lesson_without_a_bench_has_no_page_of_kits():
    stage = quiche_stage(benches=())
    stage.lesson.demonstration_batches = 0
    assert queries.kits_page(stage.lesson) is None
