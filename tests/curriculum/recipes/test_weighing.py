from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.foods.data import FoodData
from curriculum.recipes.weighing import OF_THE_BOOK, Scales, weigh, with_step
from tests.builders.recipes import college_food

F = Fraction
YEAST = FoodData("yeast", "Yeast", increment_milligrams=500, rounding="nearest")
FLOUR = FoodData("flour", "Flour", increment_milligrams=5000)
STEPS = st.sampled_from([None, 10, 100, 500, 1000, 5000])
SCALES = st.builds(Scales, STEPS, STEPS, STEPS, st.booleans())
WEIGHTS = st.fractions(min_value=1, max_value=5_000_000, max_denominator=997)


def test_three_per_cent_of_yeast_at_a_quarter_batch_is_a_third_off_on_a_five_gram_scale():
    """Trade practice, no source: 3.75 g on a 5 g scale is over 30 % off."""
    fine = weigh(3_750, YEAST)
    coarse = weigh(3_750, YEAST, Scales(small=5000, no_fine=True))
    assert (fine.milligrams, fine.step) == (3_800, 100)
    assert coarse.milligrams == 5_000 and coarse.error > F(30, 100)


def test_water_from_the_tap_goes_to_the_gram_and_milk_to_its_own_step():
    assert weigh(62_000, college_food("water")).milligrams == 62_000
    assert weigh(62_000, college_food("whole_milk")).milligrams == 65_000


@pytest.mark.parametrize(
    ("scales", "milligrams"),
    [
        (OF_THE_BOOK, 12_500),
        (Scales(fine=10), 12_350),
        (Scales(no_fine=True), 15_000),
        (Scales(bulk=100), 12_400),
    ],
)
def test_a_weight_under_twenty_grams_goes_on_the_fine_scale_where_there_is_one(scales, milligrams):
    assert weigh(F(12_345), FLOUR, scales).milligrams == milligrams


@given(WEIGHTS, SCALES)
def test_nearest_is_never_off_by_more_than_half_a_step_and_up_by_less_than_one(exact, scales):
    near, up = weigh(exact, YEAST, scales), weigh(exact, FLOUR, scales)
    assert abs(near.milligrams - exact) <= F(near.step, 2) or near.milligrams == near.step
    assert 0 <= up.milligrams - exact < up.step


def test_the_law_of_half_a_step_catches_a_weight_that_was_rounded_twice():
    """0.5 g steps of what was rounded to the gram before: 2.4 g becomes 2 g, not 2.5 g."""
    twice = weigh(weigh(2_400, YEAST, Scales(small=1000, fine=1000)).milligrams, YEAST, Scales(fine=500))
    assert twice.milligrams == 2_000 and abs(twice.milligrams - 2_400) > F(500, 2)


def test_something_is_never_weighed_as_nothing():
    assert weigh(1, YEAST, Scales(small=1000, no_fine=True)).milligrams == 1000
    assert with_step(380, YEAST, 10).milligrams == 380
