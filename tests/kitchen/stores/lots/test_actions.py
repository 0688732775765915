"""Lots are taken in, read, held, released and given back; a refusal changes nothing."""

from dataclasses import replace
from uuid import uuid4

import pytest
from django.db.models import QuerySet

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from kitchen.stores.actions import issue_kits
from kitchen.stores.allocation import barred
from kitchen.stores.entries import LabelRead, LotEntry
from kitchen.stores.lots.actions import (
    hold_lot,
    read_label,
    receive_lot,
    receive_lots,
    release_lot,
    return_to_lot,
)
from kitchen.stores.models import KitLine, Lot, Movement
from kitchen.stores.queries import lot_data
from tests.builders.book import TERM, a_person
from tests.builders.stores import QUICHE_DAY, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
ENTRY = LotEntry("NEW-1", "fine_salt", 1_000_000, TERM, supplier="quernstone")


@pytest.fixture
def hana():
    """The stores person of a college with its book."""
    return a_person("hana", "stores")


@pytest.fixture
def issued():
    """A quiche lesson whose kits have left."""
    stage = quiche_stage(benches=("R01",) * 2)
    college_lots()
    kits_made(stage)
    issue_kits(lesson=stage.lesson, by=stage.stores)
    return stage


def test_a_lot_comes_in_with_its_first_movement(hana):
    lot = receive_lot(entry=ENTRY, by=hana)
    assert (lot.on_hand_milligrams, lot.moves, lot.supplier.code) == (1_000_000, 1, "quernstone")
    assert lot.movements.get().kind == "receive"


def test_a_lot_taken_in_twice_by_one_form_is_one_lot(hana):
    key = uuid4()
    assert receive_lot(entry=ENTRY, by=hana, key=key) == receive_lot(entry=ENTRY, by=hana, key=key)
    assert Movement.objects.count() == 1


def test_a_code_that_is_in_the_book_is_refused_at_its_field(hana):
    receive_lots(entries=[ENTRY], by=hana)
    with pytest.raises(RuleBroken) as refused:
        receive_lot(entry=replace(ENTRY, milligrams=5), by=hana)
    assert refused.value.facts["field"] == "code" and Lot.objects.count() == 1


@pytest.mark.parametrize("nonsense", [{"milligrams": 0}, {"date_kind": "use_by"}, {"dated_on": TERM}])
def test_a_lot_of_nothing_or_with_half_a_date_is_no_lot(nonsense):
    with pytest.raises(ValueError):
        replace(ENTRY, **nonsense)


def test_a_held_lot_is_barred_until_it_is_released(hana):
    lot = receive_lot(entry=replace(ENTRY, label_read_on=TERM), by=hana)
    held = hold_lot(lot=lot, why="Smells of mint.", by=hana)
    assert barred(lot_data(held), QUICHE_DAY) == "Lot NEW-1 is held."
    assert held.held_why == "Smells of mint. (Hana)"
    assert barred(lot_data(release_lot(lot=lot, by=hana)), QUICHE_DAY) == ""


def test_a_lot_without_a_read_label_waits_for_it(hana):
    lot = receive_lot(entry=ENTRY, by=hana)
    assert barred(lot_data(lot), QUICHE_DAY) == "Lot NEW-1 waits for its label: nobody has read it."


def test_a_code_that_somebody_takes_at_the_same_moment_is_refused_at_its_field(hana, monkeypatch):
    receive_lots(entries=[ENTRY], by=hana)
    monkeypatch.setattr(QuerySet, "first", lambda rows: None)
    with pytest.raises(RuleBroken) as refused:
        receive_lots(entries=[ENTRY], by=hana)
    assert (refused.value.code, refused.value.facts["field"]) == ("lot_code_taken", "code")
    assert Lot.objects.count() == 1


def test_a_code_that_stands_twice_in_one_delivery_is_refused(hana):
    with pytest.raises(RuleBroken, match="NEW-1 is in the book already"):
        receive_lots(entries=[ENTRY, ENTRY], by=hana)


def test_reading_the_label_of_a_food_writes_the_food_and_reads_no_lot(hana):
    flour = Food.objects.get(code="gluten_free_flour_blend")
    unread = a_lot("gluten_free_flour_blend", "GF-1", label_read_on=None)
    read = a_lot("gluten_free_flour_blend", "GF-2")
    said = LabelRead(contains=("oats",), may_contain=("lupin",), facts=(("animal_rennet", "no"),))
    read_label(food=flour, read=said, on=QUICHE_DAY, by=hana)
    unread.refresh_from_db(), read.refresh_from_db()
    assert (flour.label_read_on, flour.label_read_by, flour.facts["animal_rennet"]) == (
        QUICHE_DAY,
        hana,
        "no",
    )
    kinds = flour.allergens.order_by("kind").values_list("kind", "presence")
    assert list(kinds) == [("lupin", "may_contain"), ("oats", "contains")]
    assert (unread.label_allergens, unread.label_read_on) == ([], None)
    assert read.label_read_on == TERM


def test_reading_a_label_prints_waiting_trays_anew_and_leaves_those_that_have_left(issued):
    butter = Food.objects.get(code="unsalted_butter")
    read = LabelRead(contains=("milk", "soya"))
    read_label(food=butter, read=read, on=QUICHE_DAY, by=issued.stores)
    assert set(KitLine.objects.filter(food=butter).values_list("allergens_words", flat=True)) == {"milk"}


def test_what_comes_back_sealed_and_cold_goes_back_into_its_lot(issued):
    issue = Movement.objects.filter(lot__code="MP-0633", kind="issue").first()
    before = issue.lot.on_hand_milligrams
    said = {
        "issue": issue,
        "milligrams": 100_000,
        "sealed_and_cold": True,
        "by": issued.stores,
        "key": uuid4(),
    }
    assert return_to_lot(**said) == before + 100_000 == return_to_lot(**said)
    assert Movement.objects.filter(kind="return").count() == 1


@pytest.mark.parametrize(
    ("grams", "sealed", "code"),
    [(100, False, "opened"), (5_000, True, "more_than_issued"), (0, True, "more_than_issued")],
)
def test_what_was_opened_or_is_more_than_left_does_not_go_back(issued, grams, sealed, code):
    issue = Movement.objects.filter(lot__code="MP-0633", kind="issue").first()
    with pytest.raises(RuleBroken) as refused:
        return_to_lot(issue=issue, milligrams=grams * 1000, sealed_and_cold=sealed, by=issued.stores)
    assert refused.value.code == code and not Movement.objects.filter(kind="return").exists()
