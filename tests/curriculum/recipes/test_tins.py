from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import tins
from curriculum.recipes.data import TinData

FLAN_24 = TinData(
    "flan_tin_24",
    1,
    "round",
    diameter_mm=240,
    depth_mm=30,
    lined_with="A",
    filled_with=("B", "C"),
    paste_thickness_tenths_mm=30,
    overhang_mm=10,
)
FLAN_20 = replace(FLAN_24, kind="flan_tin_20", diameter_mm=200)


def test_paste_goes_by_base_wall_and_overhang():
    assert tins.lined_area(FLAN_24) == tins.PI * 24_000
    assert tins.lining_factor(FLAN_24, FLAN_20) == Fraction(3, 4)


def test_filling_goes_by_volume_inside_the_paste_or_outside_it():
    assert tins.filling_factor(FLAN_24, FLAN_20, inside=False) == Fraction(20, 24) ** 2
    assert tins.filling_factor(FLAN_24, FLAN_20, inside=True) == Fraction(194, 234) ** 2


def test_there_and_back_is_the_start():
    assert tins.lining_factor(FLAN_24, FLAN_20) * tins.lining_factor(FLAN_20, FLAN_24) == 1
    assert tins.filling_factor(FLAN_24, FLAN_20) * tins.filling_factor(FLAN_20, FLAN_24) == 1


def test_two_tins_take_twice_as_much():
    assert tins.lining_factor(FLAN_24, replace(FLAN_24, count=2)) == 2


def test_a_ring_with_a_hole_holds_less_than_one_without():
    whole = TinData("savarin", 1, "ring", diameter_mm=200, depth_mm=50)
    holed = replace(whole, width_mm=100)
    assert tins.base_area(holed) == tins.base_area(whole) * Fraction(3, 4)


def test_the_inner_wall_of_a_ring_is_lined_and_takes_its_own_paste():
    """20 cm with a hole of 10 cm, 5 cm deep: 75 pi + 20 pi x 5 + 10 pi x 5 = 225 pi square centimetres.

    Inside 3 mm of paste 19.4 and 10.6 cm are left, 4.7 cm deep.
    """
    holed = TinData("savarin", 1, "ring", 200, width_mm=100, depth_mm=50, lined_with="A")
    lined = replace(holed, paste_thickness_tenths_mm=30)
    assert tins.lined_area(holed) == 225 * tins.PI * 100
    assert tins.lined_area(replace(holed, overhang_mm=10)) == 245 * tins.PI * 100
    assert tins.filled_volume(lined) == tins.PI * (194**2 - 106**2) / 4 * 47


@pytest.mark.parametrize(
    "tin",
    [
        TinData("ring", 1, "ring", diameter_mm=80, width_mm=90, depth_mm=70),
        TinData("ring", 1, "ring", diameter_mm=80, width_mm=80, depth_mm=70),
        TinData(
            "ring", 1, "ring", 100, width_mm=80, depth_mm=70, lined_with="A", paste_thickness_tenths_mm=50
        ),
        TinData("loaf", 1, "loaf", None, 100, 40, 70, lined_with="A", paste_thickness_tenths_mm=200),
        TinData("tart", 1, "fluted", 40, depth_mm=70, lined_with="A", paste_thickness_tenths_mm=200),
    ],
    ids=lambda tin: f"{tin.shape} {tin.width_mm}",
)
def test_a_tin_that_holds_less_than_nothing_is_refused(tin):
    with pytest.raises(RuleBroken, match="as wide as the"):
        tins.filled_volume(tin)


def test_a_tin_with_a_little_room_between_its_paste_is_filled():
    loaf = TinData("loaf", 1, "loaf", None, 100, 42, 70, lined_with="A", paste_thickness_tenths_mm=200)
    assert tins.filled_volume(loaf) == 60 * 2 * 50


def test_a_fluted_tin_is_reckoned_as_a_round_one_and_called_fluted():
    fluted = replace(FLAN_24, shape="fluted")
    assert tins.lined_area(fluted) == tins.lined_area(FLAN_24)
    assert tins.filled_volume(fluted) == tins.filled_volume(FLAN_24)
    assert tins.words(fluted) == "fluted tin of 24 cm"


@pytest.mark.parametrize(
    ("ratio", "same"), [("0.95", True), ("0.949", False), ("1.11", True), ("1.111", False)]
)
def test_the_bounds_of_the_same_size_are_those_that_are_written(ratio, same):
    assert tins.is_same_size(Fraction(ratio)) is same


def test_straight_tins_go_by_their_sides():
    loaf = TinData("loaf", 1, "loaf", length_mm=220, width_mm=110, depth_mm=60)
    assert tins.filled_volume(loaf) == 220 * 110 * 60
    assert tins.lined_area(loaf) == 220 * 110 + 2 * 330 * 60
    assert tins.base_area(TinData("square", 1, "square", length_mm=200)) == 40_000


def test_a_mould_of_a_stated_volume_is_that_volume():
    dariole = TinData("dariole", 8, "dariole", volume_ml=100)
    assert tins.filled_volume(dariole) == 100_000
    assert tins.filled_volume(dariole, part=Fraction(9, 10)) == 90_000


def test_a_tin_without_a_measure_is_refused_and_the_measure_named():
    with pytest.raises(RuleBroken, match="no depth"):
        tins.lined_area(replace(FLAN_24, depth_mm=None))
    with pytest.raises(RuleBroken, match="no diameter"):
        tins.base_area(replace(FLAN_24, diameter_mm=0))


def test_paste_thicker_than_the_tin_is_deep_is_refused():
    with pytest.raises(RuleBroken, match="thicker"):
        tins.filled_volume(replace(FLAN_24, depth_mm=2))


def test_another_depth_is_said_and_never_turned_into_minutes():
    words = tins.depth_words(FLAN_24, replace(FLAN_20, depth_mm=50))
    assert "50 mm deep, deeper than 30 mm" in words and "not calculated" in words
    assert tins.depth_words(FLAN_24, FLAN_20) == ""


def test_a_tin_is_spoken_of_by_its_shape_and_size():
    assert tins.words(FLAN_24) == "round tin of 24 cm"
    assert tins.words(replace(FLAN_24, diameter_mm=225)) == "round tin of 22.5 cm"
