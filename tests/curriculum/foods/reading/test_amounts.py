from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.foods import units
from curriculum.foods.handwriting import amount_words
from curriculum.foods.measures import Amount, Unreadable, read_amount
from curriculum.foods.reading.amounts import begun

FINE = {"volume": F(1, 8), "mass": F(1, 4)}
KITCHEN = {
    units.US: [units.US_TEASPOON, units.US_TABLESPOON, units.US_CUP, units.US_QUART, units.US_GALLON],
    units.IMPERIAL: [units.IMPERIAL_FLUID_OUNCE, units.IMPERIAL_PINT, units.OUNCE, units.POUND],
    units.AUSTRALIAN: [units.METRIC_TEASPOON, units.AUSTRALIAN_TABLESPOON, units.METRIC_CUP],
    units.METRIC: [units.GRAM, units.KILOGRAM, units.MILLILITRE, units.LITRE],
}


@given(st.sampled_from(sorted(KITCHEN)), st.integers(1, 200), st.data())
def test_what_a_spoon_or_a_scale_can_show_is_printed_and_read_as_the_same(system, parts, data):
    unit = data.draw(st.sampled_from(KITCHEN[system]))
    step = F(1) if system == units.METRIC or unit.size > 1000 or unit is units.US_TABLESPOON else FINE["mass"]
    parts = min(parts, 80) if unit is units.METRIC_TEASPOON else parts
    amount = Amount(parts * step, parts * step, unit)
    words = amount_words(amount, system)
    again = read_amount(words, system)
    assert again.most * again.unit.size == amount.most * unit.size, words


@given(st.sampled_from(sorted(KITCHEN)), st.fractions(F(1, 2), 500), st.data())
def test_what_no_spoon_shows_is_printed_near_enough(system, count, data):
    unit = data.draw(st.sampled_from(KITCHEN[system]))
    words = amount_words(Amount(count, count, unit), system)
    again = read_amount(words, system)
    exact = count * unit.size
    off = abs(again.most * again.unit.size - exact)
    smallest = {"mass": units.OUNCE.size / 4, "volume": units.IMPERIAL_FLUID_OUNCE.size / 8}[unit.dimension]
    assert off <= max(exact / 50, smallest), (words, float(off))


@given(st.integers(1, 60), st.integers(1, 60), st.sampled_from(["g", "ml", "lb", "oz", "cup", "tsp", ""]))
def test_a_range_that_is_printed_is_read_as_the_same(low, more, unit):
    amount = read_amount(f"{low}-{low + more} {unit}".strip(), "us")
    again = read_amount(amount_words(amount, "us"), "us")
    assert again.least * again.unit.size == amount.least * amount.unit.size
    assert again.most * again.unit.size == amount.most * amount.unit.size


def test_a_printer_that_loses_a_part_would_be_caught():
    amount = read_amount("3/4 cup 2 tbsp", "us")
    lost = amount_words(amount, "us").replace(" 2 tbsp", "")
    again = read_amount(lost, "us")
    assert again.most * again.unit.size != amount.most * amount.unit.size


@pytest.mark.parametrize(
    ("text", "rest"),
    [("2 x 400 g tins of tomatoes", "tomatoes"), ("2 cloves of garlic", "garlic"), ("a drop", "")],
)
def test_what_is_left_is_the_food(text, rest):
    assert begun(text, None)[1] == rest


@pytest.mark.parametrize(
    ("text", "same"),
    [("25 g / 1 oz", True), ("85 g / 100 g", True), ("84 g / 100 g", False), ("250 g/11 oz", False)],
)
def test_two_measures_of_one_amount_are_at_most_fifteen_parts_in_a_hundred_apart(text, same):
    if same:
        assert read_amount(text).unit is units.GRAM
    else:
        with pytest.raises(Unreadable, match="not the same amount"):
            read_amount(text)


def test_a_range_with_equal_ends_is_one_amount():
    amount = read_amount("2-2 cups", units.US)
    assert amount.least == amount.most == 2
