"""Tests are appended, prices end one another, a label is read on a day, a figure has a source."""

import uuid
from dataclasses import replace
from datetime import date

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, Pack, YieldTest
from curriculum.foods.one import actions
from curriculum.foods.one.said import LabelSaid, PriceSaid, YieldSaid
from curriculum.foods.queries import prices
from tests.builders.book import a_book, a_person

pytestmark = pytest.mark.django_db
TODAY = date(2027, 2, 16)


@pytest.fixture
def hana(db):
    """Who keeps the stores."""
    a_book()
    return a_person("hana", "stores")


@pytest.fixture
def butter(hana):
    return Food.objects.get(name="Unsalted butter")


def _test(food, hana, bought, usable, **more):
    said = YieldSaid(TODAY, bought, usable)
    return actions.record_yield_test(food=food, said=said, by=hana, today=TODAY, **more)


def test_the_colleges_own_tests_count_by_weight_and_are_used_when_a_person_says_so(hana, butter):
    before = (butter.usable_per_mille, butter.usable_source)
    _test(butter, hana, 1_000_000, 700_000)
    _test(butter, hana, 3_000_000, 2_700_000)
    butter.refresh_from_db()
    assert (butter.usable_per_mille, butter.usable_source) == before
    used = actions.use_own_yield(food=butter, by=hana)
    assert (used.usable_per_mille, used.usable_source) == (
        850,
        "own yield tests, 2, the last on 16 February 2027",
    )


def test_a_test_sent_twice_is_one_test_and_is_never_changed(hana, butter):
    key = uuid.uuid4()
    first = _test(butter, hana, 1_000_000, 700_000, key=key)
    assert _test(butter, hana, 1_000_000, 700_000, key=key) == first
    assert YieldTest.objects.count() == 1
    first.usable_milligrams = 1
    with pytest.raises(TypeError):
        first.save()


def test_a_test_of_a_day_to_come_is_refused(hana, butter):
    said = YieldSaid(date(2027, 2, 17), 1_000_000, 900_000)
    with pytest.raises(RuleBroken, match="still to come"):
        actions.record_yield_test(food=butter, said=said, by=hana, today=TODAY)
    assert not YieldTest.objects.exists()


@pytest.mark.parametrize(("bought", "usable"), [(1000, 1001), (1000, 0), (0, 0)])
def test_no_more_is_left_than_was_bought(hana, butter, bought, usable):
    with pytest.raises(RuleBroken, match="More is left"):
        _test(butter, hana, bought, usable)
    assert not YieldTest.objects.exists()


def test_own_tests_are_not_used_before_there_is_one(hana, butter):
    with pytest.raises(RuleBroken, match="No yield test"):
        actions.use_own_yield(food=butter, by=hana)


def test_a_tables_figure_is_used_with_its_source_and_only_for_its_own_food(hana, butter):
    figure = butter.yield_figures.create(usable_per_mille=930, source="A table")
    used = actions.use_table_yield(food=butter, figure=figure, by=hana)
    assert (used.usable_per_mille, used.usable_source) == (930, "A table")
    other = Food.objects.exclude(pk=butter.pk).first()
    with pytest.raises(RuleBroken, match="another food"):
        actions.use_table_yield(food=other, figure=figure, by=hana)


def _price(pence, day, **more):
    pack = (
        Pack.objects.filter(food__name="Unsalted butter", for_costing=True).select_related("supplier").first()
    )
    said = PriceSaid(pack.supplier.code, pack.milligrams, pence, day, pack.pieces, for_costing=True)
    return replace(said, **more)


def test_a_new_price_ends_the_old_one_the_day_before_and_edits_nothing(hana, butter):
    old = Pack.objects.filter(food=butter, for_costing=True).get()
    new = actions.add_price(food=butter, said=_price(999, TODAY), by=hana)
    old_pence = old.pence
    old.refresh_from_db()
    assert (old.pence, old.until_on, new.until_on) == (old_pence, date(2027, 2, 15), None)
    assert prices(date(2027, 2, 15), [butter.code])[butter.code].pence == old_pence
    assert prices(TODAY, [butter.code])[butter.code].pence == 999


def test_the_pack_that_recipes_are_costed_by_stays_so_at_its_new_price(hana, butter):
    actions.add_price(food=butter, said=_price(999, TODAY, for_costing=False), by=hana)
    assert prices(TODAY, [butter.code])[butter.code].pence == 999
    actions.add_price(food=butter, said=_price(5, TODAY, milligrams=1_500, for_costing=False), by=hana)
    assert prices(TODAY, [butter.code])[butter.code].pence == 999


def test_another_size_ends_nothing(hana, butter):
    actions.add_price(food=butter, said=_price(50, TODAY, milligrams=123_000), by=hana)
    assert not Pack.objects.exclude(until_on=None).exists()


def test_a_price_does_not_begin_before_one_that_stands(hana, butter):
    actions.add_price(food=butter, said=_price(999, TODAY), by=hana)
    for day in (TODAY, date(2027, 2, 1)):
        with pytest.raises(RuleBroken, match="This pack has a price from 16 February 2027"):
            actions.add_price(food=butter, said=_price(500, day), by=hana)
    assert set(Pack.objects.filter(food=butter).values_list("pence", flat=True)) & {500, 999} == {999}


def _label(**changes):
    return replace(LabelSaid(("milk",), ("almond",), (("alcohol", "no"),), TODAY), **changes)


def test_a_label_replaces_what_stood_there_and_says_who_read_it(hana, butter):
    actions.write_label(food=butter, said=_label(), by=hana, today=TODAY)
    butter.refresh_from_db()
    said = set(butter.allergens.values_list("kind", "presence"))
    assert said == {("milk", "contains"), ("almond", "may_contain")}
    assert (butter.label_read_on, butter.label_read_by, butter.facts["alcohol"]) == (TODAY, hana, "no")


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"may_contain": ("milk",)}, "Tick it once"),
        ({"read_on": date(2027, 2, 17)}, "still to come"),
        ({"read_on": date(2020, 1, 1)}, "The later one stays"),
    ],
)
def test_a_label_that_cannot_be_is_refused_and_the_old_one_stays(hana, butter, changes, says):
    before = set(butter.allergens.values_list("kind", "presence"))
    with pytest.raises(RuleBroken, match=says):
        actions.write_label(food=butter, said=_label(**changes), by=hana, today=TODAY)
    assert set(butter.allergens.values_list("kind", "presence")) == before


def test_a_retired_food_can_be_brought_back(hana, butter):
    actions.retire_food(food=butter, by=hana)
    assert Food.objects.get(pk=butter.pk).retired_at is not None
    actions.bring_back_food(food=butter, by=hana)
    assert Food.objects.get(pk=butter.pk).retired_at is None
