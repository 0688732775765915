"""A person reads each lot's own pack; what it names beyond its food keeps it out of the kits."""

from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from kitchen.stores.allocation import barred
from kitchen.stores.entries import LabelRead
from kitchen.stores.lots.labels.actions import let_food_name_it_too, read_lot_label
from kitchen.stores.lots.labels.queries import beyond_food, readings, same_choices, unread_lots
from kitchen.stores.lots.managers import label_of
from kitchen.stores.models import Kit, Lot
from kitchen.stores.queries import lot_data
from tests.builders.book import a_person
from tests.builders.stores import QUICHE_DAY, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def hana():
    """The stores person."""
    return a_person("hana", "stores")


def unread(code):
    return a_lot("unsalted_butter", code, label_read_on=None)


def read(lot, by, contains=("milk",), may=(), **more):
    return read_lot_label(lot=lot, read=LabelRead(tuple(contains), tuple(may)), on=QUICHE_DAY, by=by, **more)


def test_reading_one_pack_reads_no_other_lot_of_the_food(hana):
    first, second = unread("B-1"), unread("B-2")
    read(first, hana)
    assert [lot.code for lot in unread_lots()] == ["B-2"]
    second.refresh_from_db()
    assert "waits for its label" in barred(lot_data(second), QUICHE_DAY)


def test_a_pack_sent_twice_by_one_button_is_one_reading(hana):
    lot, key = unread("B-1"), uuid4()
    assert read(lot, hana, key=key) == read(lot, hana, key=key)
    assert lot.label_readings.count() == 1


def test_the_same_as_another_pack_is_said_for_this_pack_by_a_person(hana):
    first, second = unread("B-1"), unread("B-2")
    read(first, hana, may=("soya",))
    ((other, says),) = same_choices(second)
    assert other == first and says.startswith("Contains milk. May contain soya.")
    lot = read(second, a_person("desmond", "technician"), may=("soya",), same_as=first)
    assert (lot.label_read_by.name, lot.label_may_contain) == ("Desmond", ["soya"])
    assert readings(lot)[0].same_as == "B-1"


def test_a_pack_that_names_more_goes_into_no_kit_until_the_food_names_it_too(hana):
    lot = read(unread("B-1"), hana, contains=("milk", "soya"))
    assert beyond_food(lot) == "soya"
    assert "names soya" in barred(lot_data(lot), QUICHE_DAY)
    food = let_food_name_it_too(lot=lot, by=hana)
    assert set(label_of(Food.objects.get(pk=food.pk)).contains) == {"milk", "soya"}
    assert barred(lot_data(Lot.objects.get(pk=lot.pk)), QUICHE_DAY) == ""


def test_a_pack_that_names_less_takes_nothing_from_the_label_of_its_food(hana):
    lot = read(unread("B-1"), hana, contains=())
    assert beyond_food(lot) == "" and "milk" in label_of(lot.food).contains


def test_the_first_pack_of_a_food_that_nobody_read_frees_its_kits_and_its_lot():
    stage = quiche_stage(benches=("R01", "V1"))
    college_lots()
    kits = kits_made(stage)
    lot = Lot.objects.get(food__code="gluten_free_flour_blend")
    assert Kit.objects.exclude(blocked_why="").exists() and lot.label_read_on is None
    read(lot, stage.stores, contains=(), may=("lupin",))
    kits.refresh_from_db()
    assert not Kit.objects.exclude(blocked_why="").exists()
    assert "gluten_free_flour_blend" not in {each["code"] for each in kits.shortages}
    food = Food.objects.get(code="gluten_free_flour_blend")
    assert food.label_read_on == QUICHE_DAY and label_of(food).may_contain == ("lupin",)


def test_an_unread_pack_widens_nothing_and_a_made_lot_has_no_pack(hana):
    lot = unread("B-1")
    with pytest.raises(RuleBroken) as refused:
        let_food_name_it_too(lot=lot, by=hana)
    assert refused.value.code == "label_not_read"


def test_a_stricter_answer_of_one_pack_is_kept_on_the_food(hana):
    lot = unread("B-1")
    said = LabelRead(("milk",), (), (("alcohol", "trace"),))
    read_lot_label(lot=lot, read=said, on=QUICHE_DAY, by=hana)
    assert Food.objects.get(code="unsalted_butter").facts["alcohol"] == "trace"
    read_lot_label(lot=lot, read=LabelRead(("milk",), (), (("alcohol", "no"),)), on=QUICHE_DAY, by=hana)
    assert Food.objects.get(code="unsalted_butter").facts["alcohol"] == "trace"
