"""Foods, suppliers and packs are written down at once; a learner's avoidance names one thing."""

from dataclasses import replace
from datetime import date, time

import pytest
from django.core.exceptions import ValidationError

from curriculum.foods.actions import add_foods, add_packs, add_suppliers, note_avoidance
from curriculum.foods.entries import FoodEntry, PackEntry, SupplierEntry
from curriculum.foods.models import Avoidance, Food, Pack
from curriculum.people.models import Student, User

EGG = FoodEntry(
    code="egg_in_shell",
    name="Hen egg in shell",
    storage="chilled",
    scaling_class="piece",
    increment_milligrams=57_000,
    rounding="up",
    usable_per_mille=1000,
    counted_in="pieces",
    contains=("egg",),
    may_contain=(),
    facts=(("meat", "no"),),
    label_read_on=date(2027, 1, 5),
    piece_milligrams=57_000,
)
YOLK = replace(
    EGG,
    code="egg_yolk",
    name="Hen egg yolk",
    counted_in="grams",
    piece_milligrams=None,
    label_read_on=None,
    made_from="egg_in_shell",
    made_from_milligrams=18_000,
)
DAIRY = SupplierEntry("dairy", "A dairy", 1, time(12), (1, 3), 4000, 450)


@pytest.fixture
def stores(db):
    """Who writes foods down."""
    return User.objects.create_user("delia", "Delia Oxhey")


def test_a_part_may_be_written_before_the_piece_it_is_made_from(stores):
    add_foods(entries=[YOLK, EGG], by=stores)
    yolk = Food.objects.select_related("made_from").get(code="egg_yolk")
    assert (yolk.made_from.code, yolk.made_from_milligrams) == ("egg_in_shell", 18_000)
    assert list(yolk.allergens.values_list("kind", "presence")) == [("egg", "contains")]


def test_a_label_date_carries_the_name_of_who_read_it(stores):
    add_foods(entries=[EGG, YOLK], by=stores)
    assert Food.objects.get(code="egg_in_shell").label_read_by == stores
    assert Food.objects.get(code="egg_yolk").label_read_by is None


def test_foods_are_written_by_the_batch_and_not_one_by_one(stores, django_assert_max_num_queries):
    more = [replace(EGG, code=f"egg-{number}") for number in range(30)]
    more += [replace(YOLK, code=f"yolk-{number}", made_from=f"egg-{number}") for number in range(30)]
    with django_assert_max_num_queries(12):
        add_foods(entries=more, by=stores)


def test_named_pieces_and_the_shares_of_several_tables_stand_with_whose_they_are(stores):
    garlic = replace(
        EGG,
        code="garlic",
        name="Garlic",
        counted_in="grams",
        piece_milligrams=None,
        usable_per_mille=870,
        dough_part="",
        piece_weights=(("clove", 3000, "A table"), ("head", 40_000, "Own estimate")),
        yield_figures=((870, "A table"), (880, "Another table")),
    )
    add_foods(entries=[replace(EGG, dough_part="egg", piece_source="A working figure"), garlic], by=stores)
    row = Food.objects.get(code="garlic")
    assert list(row.piece_weights.values_list("name", "milligrams", "source")) == list(garlic.piece_weights)
    said = row.yield_figures.values_list("usable_per_mille", "source")
    assert list(said) == [(870, "A table"), (880, "Another table")]
    egg = Food.objects.get(code="egg_in_shell")
    assert (egg.dough_part, egg.piece_source) == ("egg", "A working figure")


def test_a_pack_is_of_a_known_food_and_supplier(stores):
    add_foods(entries=[EGG], by=stores)
    add_suppliers(entries=[DAIRY], by=stores)
    pack = PackEntry("egg_in_shell", "dairy", 30 * 57_000, 630, date(2027, 1, 4), pieces=30, for_costing=True)
    add_packs(entries=[pack], by=stores)
    assert Pack.objects.get().pieces == 30
    with pytest.raises(KeyError):
        add_packs(entries=[replace(pack, food="sawdust")], by=stores)
    assert Pack.objects.count() == 1


def test_an_entry_that_makes_no_sense_is_never_made():
    with pytest.raises(ValueError, match="weight above 0"):
        PackEntry("egg_in_shell", "dairy", 0, 630, date(2027, 1, 4))
    with pytest.raises(ValueError, match="between 1 and 1000"):
        replace(EGG, usable_per_mille=0)
    with pytest.raises(ValueError, match="between 1 and 1000"):
        replace(EGG, yield_figures=((1200, "A table"),))
    with pytest.raises(ValueError, match="where it is from"):
        replace(EGG, piece_weights=(("clove", 3000, ""),))


def test_what_a_learner_avoids_is_one_thing_and_a_way_of_eating_is_a_choice(stores):
    student = Student.objects.create(user=User.objects.create_user("io", "Io"), college_number="1")
    day = date(2027, 1, 4)
    note_avoidance(student=student, from_on=day, by=stores, kind="gluten", note="Own tools.")
    note_avoidance(student=student, from_on=day, by=stores, way="vegetarian")
    severities = dict(Avoidance.objects.values_list("kind", "severity"))
    assert severities == {"gluten": "allergy", "": "choice"}
    with pytest.raises(ValidationError):
        note_avoidance(student=student, from_on=day, by=stores, kind="gluten", way="vegan")
    with pytest.raises(ValidationError):
        note_avoidance(student=student, from_on=day, by=stores)
    assert Avoidance.objects.count() == 2
