"""Waste, counts, food the book lacks and corrections: each once, never below nothing, with a reason."""

from dataclasses import replace
from uuid import uuid4

import pytest
from django.db.models import Sum

from curriculum.errors import RuleBroken
from kitchen.stores.allocation import barred
from kitchen.stores.models import Lot, Movement
from kitchen.stores.moves.actions import correct_movement, count_in_food, count_lots, waste_from_lot
from kitchen.stores.moves.counting import Counted
from kitchen.stores.moves.entries import FoundEntry
from kitchen.stores.queries import lot_data
from kitchen.stores.weighout.managers import set_aside
from tests.builders.book import a_person
from tests.builders.stores import QUICHE_DAY, a_lot, college_lots, kits_made, quiche_stage
from tests.builders.weighout import weighed_at

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def hana():
    """The stores person."""
    return a_person("hana", "stores")


def sum_of(lot):
    return lot.movements.aggregate(sum=Sum("milligrams"))["sum"]


def test_waste_sent_twice_leaves_the_lot_once_with_its_reason(hana):
    lot, key = a_lot("unsalted_butter", grams=1000), uuid4()
    said = {"lot": lot, "milligrams": 300_000, "reason": "Dropped", "by": hana, "key": key}
    assert waste_from_lot(**said) == 700_000 == waste_from_lot(**said)
    row = lot.movements.get(kind="waste")
    assert (row.milligrams, row.reason, row.by) == (-300_000, "Dropped", hana)


def test_more_waste_than_there_is_is_refused_at_its_field_and_changes_nothing(hana):
    lot = a_lot("unsalted_butter", grams=100)
    with pytest.raises(RuleBroken) as refused:
        waste_from_lot(lot=lot, milligrams=100_001, reason="Dropped", by=hana)
    assert (refused.value.code, refused.value.facts["field"]) == ("lot_too_small", "amount")
    assert sum_of(lot) == 100_000


def test_a_count_sets_the_book_right_and_a_lot_that_agrees_gets_no_movement(hana):
    less, same = a_lot("unsalted_butter", "B-1", 1000), a_lot("fine_salt", "S-1", 500)
    key = uuid4()
    counts = [Counted("B-1", 900_000, 1, "Nobody knows"), Counted("S-1", 500_000, 1)]
    assert count_lots(counts=counts, by=hana, key=key) == {"B-1": -100_000}
    assert count_lots(counts=counts, by=hana, key=key) == {"B-1": -100_000}
    less.refresh_from_db(), same.refresh_from_db()
    assert (less.on_hand_milligrams, same.moves) == (900_000, 1)
    assert less.movements.get(kind="count").reason == "Nobody knows"


def test_a_difference_above_the_threshold_without_a_reason_is_refused_at_its_lot(hana):
    lot, other = a_lot("unsalted_butter", "B-1", 1000), a_lot("fine_salt", "S-1", 500)
    counts = [Counted("B-1", 900_000, 1), Counted("S-1", 0, 1, "Nobody knows")]
    with pytest.raises(RuleBroken) as refused:
        count_lots(counts=counts, by=hana)
    ((field, words),) = refused.value.facts["at_fields"]
    assert field == f"why_{lot.pk}" and "1,000 g in the book, 900 g counted" in words
    assert not Movement.objects.filter(kind="count").exists() and sum_of(other) == 500_000


def test_a_small_difference_needs_no_reason(hana):
    a_lot("unsalted_butter", "B-1", 1000)
    assert count_lots(counts=[Counted("B-1", 990_000, 1)], by=hana) == {"B-1": -10_000}


def test_a_lot_that_moved_since_the_page_was_opened_is_counted_once_more(hana):
    lot = a_lot("unsalted_butter", "B-1", 1000)
    waste_from_lot(lot=lot, milligrams=1000, reason="Dropped", by=hana)
    with pytest.raises(RuleBroken, match="Stock moved") as refused:
        count_lots(counts=[Counted("B-1", 1_000_000, 1)], by=hana)
    assert refused.value.facts["at_fields"][0][0] == f"n_{lot.pk}"


def test_food_that_the_book_lacks_is_a_lot_without_supplier_that_waits_for_its_label(hana):
    entry, key = FoundEntry("fine_salt", 700_000, "It came without papers"), uuid4()
    lot = count_in_food(entry=entry, by=hana, key=key)
    assert count_in_food(entry=entry, by=hana, key=key) == lot and Lot.objects.count() == 1
    assert (lot.on_hand_milligrams, lot.supplier, lot.label_read_on) == (700_000, None, None)
    assert (lot.movements.get().kind, lot.movements.get().reason) == ("count", "It came without papers")
    assert "waits for its label" in barred(lot_data(lot), QUICHE_DAY)


def test_a_food_that_is_not_stocked_is_not_counted_in(hana):
    with pytest.raises(RuleBroken, match="not kept"):
        count_in_food(entry=FoundEntry("nothing_of_it", 1, "Bought"), by=hana)


@pytest.mark.parametrize("nonsense", [{"milligrams": 0}, {"reason": ""}, {"date_kind": "use_by"}])
def test_nothing_or_no_reason_is_no_entry(nonsense):
    with pytest.raises(ValueError):
        replace(FoundEntry("fine_salt", 1, "Bought"), **nonsense)


@pytest.mark.parametrize(("should_be", "left"), [(100_000, 900_000), (0, 1_000_000), (1_000_000, 0)])
def test_a_correction_is_a_row_of_its_own_and_the_first_one_stays(hana, should_be, left):
    lot, key = a_lot("unsalted_butter", grams=1000), uuid4()
    waste_from_lot(lot=lot, milligrams=300_000, reason="Dropped", by=hana)
    wrong = lot.movements.get(kind="waste")
    said = {"movement": wrong, "should_be_milligrams": should_be, "reason": "Misread", "by": hana, "key": key}
    assert correct_movement(**said) == left == correct_movement(**said)
    row = lot.movements.get(corrects=wrong)
    assert (row.kind, row.reason, sum_of(lot)) == ("count", "Corrects movement 2: Misread", left)


def test_a_correction_of_nothing_a_second_one_and_one_below_nothing_are_refused(hana):
    lot = a_lot("unsalted_butter", grams=1000)
    waste_from_lot(lot=lot, milligrams=300_000, reason="Dropped", by=hana)
    wrong = lot.movements.get(kind="waste")

    def refused(movement, should_be):
        with pytest.raises(RuleBroken) as error:
            correct_movement(movement=movement, should_be_milligrams=should_be, reason="Misread", by=hana)
        return error.value.code

    assert refused(wrong, 300_000) == "nothing_to_correct"
    assert refused(wrong, 1_100_000) == "lot_too_small"
    correct_movement(movement=wrong, should_be_milligrams=1000, reason="Misread", by=hana)
    assert refused(wrong, 0) == "corrected_already"
    assert refused(lot.movements.get(corrects=wrong), 0) == "corrected_already"


def test_what_stands_weighed_on_trays_is_not_written_off_by_a_count(hana):
    """The bin and the trays together are what the book says; who saw no trays counts once more."""
    stage = quiche_stage(benches=("R01", "R01"), ahead=())
    college_lots()
    kit_set = kits_made(stage)
    weighed_at(kit_set, "soft_wheat_flour", hana)
    (lot, trays), *_ = set_aside(
        Lot.objects.filter(food__code="soft_wheat_flour").values_list("pk", flat=True)
    ).items()
    flour = Lot.objects.get(pk=lot)
    there = flour.on_hand_milligrams - trays
    counted = Counted(flour.code, there, flour.moves, weighed_milligrams=trays)
    assert trays and count_lots(counts=[counted], by=hana) == {}
    with pytest.raises(RuleBroken) as refused:
        count_lots(counts=[Counted(flour.code, there, flour.moves)], by=hana)
    assert refused.value.code == "lot_moved_meanwhile"


def test_what_stands_weighed_on_trays_is_not_thrown_away_out_of_its_pack(hana):
    stage = quiche_stage(benches=("R01",), ahead=())
    college_lots()
    kit_set = kits_made(stage)
    weighed_at(kit_set, "fine_salt", stage.stores)
    (lot,) = Lot.objects.filter(pk__in=set_aside(Lot.objects.values_list("pk", flat=True)))
    aside = set_aside([lot.pk])[lot.pk]
    with pytest.raises(RuleBroken) as refused:
        waste_from_lot(lot=lot, milligrams=lot.on_hand_milligrams, reason="Damp", by=hana)
    assert (refused.value.code, refused.value.facts["field"]) == ("stands_on_trays", "amount")
    assert stage.lesson.title in refused.value.message
    left = waste_from_lot(lot=lot, milligrams=lot.on_hand_milligrams - aside, reason="Damp", by=hana)
    assert left == aside
