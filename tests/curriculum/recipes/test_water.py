from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.water import dough_water, temperature

#: Common practice of bakers, from memory: the rule; the figures are made here.
RULES = [
    ((260, 200, 220, 80), None, 280),
    ((260, 200, 220, 80), 240, 300),
    ((240, 220, 240, 140), None, 120),
]


@pytest.mark.parametrize(("said", "preferment", "water"), RULES)
def test_the_water_makes_up_for_what_warms_the_dough(said, preferment, water):
    assert temperature(*said, preferment) == water
    found = dough_water(*said, preferment=preferment, tap=120)
    assert (found.decicelsius, found.factors) == (water, 3 if preferment is None else 4)


def test_a_tap_that_is_too_warm_is_helped_by_ice():
    """300 g wanted at 4 °C from a tap of 14 °C: 300 x 10 / 94 = 31.9 g of ice."""
    found = dough_water(240, 240, 260, 180, tap=140, water=300_000)
    assert found.decicelsius == 40 and found.ice == Fraction(300_000 * 10, 94)


def test_ice_and_water_together_come_to_the_temperature():
    found = dough_water(240, 260, 260, 180, tap=140, water=1_000_000)
    rest = found.water - found.ice
    assert found.ice * (800 + found.decicelsius) == rest * (140 - found.decicelsius)


def test_a_tap_that_is_cold_enough_needs_no_ice():
    assert dough_water(260, 200, 220, 80, tap=120, water=300_000).ice == 0


@pytest.mark.parametrize(
    ("said", "code"),
    [((300, 150, 200, 20), "water_too_hot"), ((100, 300, 300, 250), "water_too_cold")],
)
def test_what_no_water_can_do_is_refused_at_the_temperature_wanted(said, code):
    with pytest.raises(RuleBroken) as refused:
        dough_water(*said)
    assert refused.value.code == code and refused.value.facts["field"] == "wanted"


def test_the_hottest_water_and_the_most_ice_are_still_given():
    """45 °C by 3 x 30 - 45, and half ice: 14 °C to -33 °C is 47 of 94 parts; a tenth more is refused."""
    assert dough_water(300, 200, 200, 50).decicelsius == 450
    with pytest.raises(RuleBroken):
        dough_water(300, 200, 200, 49)
    assert dough_water(100, 200, 230, 200, tap=140, water=94).ice == 47
    with pytest.raises(RuleBroken):
        dough_water(100, 200, 230, 201, tap=140, water=94)
