"""Tins by geometry, and against the charts that cooks use."""

from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.recipes import tins
from curriculum.recipes.data import TinData
from tests.published.rows import row

INCH = Fraction(254, 10)
GEOMETRY = "geometry: area = pi d^2 / 4"


def _round(millimetres, depth=None):
    return TinData("round", 1, "round", diameter_mm=millimetres, depth_mm=depth)


def _area(centimetres):
    return tins.base_area(_round(centimetres * 10)) / 100


ROWS = [
    row("8 in to 6 in", tins.same_depth_factor(_round(8 * INCH), _round(6 * INCH)), "0.56", "a tin page"),
    row(
        "8 in to 6 in, exact",
        tins.same_depth_factor(_round(8 * INCH), _round(6 * INCH)),
        "exact 0.5625",
        GEOMETRY,
    ),
    row(
        "8 in to 9 in", tins.same_depth_factor(_round(8 * INCH), _round(9 * INCH)), "exact 1.265625", GEOMETRY
    ),
    row(
        "8 in to 10 in", tins.same_depth_factor(_round(8 * INCH), _round(10 * INCH)), "exact 1.5625", GEOMETRY
    ),
    row("20 to 24 cm", tins.same_depth_factor(_round(200), _round(240)), "exact 1.44", GEOMETRY),
    row("20 cm round to square", tins.square_for_round(200, 200), "1.27", GEOMETRY, "computed"),
    *(
        row(f"area of {size} cm", _area(size), printed, GEOMETRY, "computed")
        for size, printed in [
            (15, "176.7"),
            (18, "254.5"),
            (20, "314.2"),
            (23, "415.5"),
            (25, "490.9"),
            (28, "615.8"),
            (30, "706.9"),
        ]
    ),
    row(
        "6 in tin of 4 in, in cubic inches",
        tins.filled_volume(_round(6 * INCH, 4 * INCH)) / INCH**3,
        "113.097",
        "roundcaketins.com prints 113.04 with pi as 3.14",
        "computed",
    ),
]


@pytest.mark.parametrize("each", ROWS, ids=lambda each: each.what)
def test_a_round_tin_is_what_geometry_says(each):
    assert each.holds(), float(each.computed)


@pytest.mark.parametrize(
    ("diameter", "side", "ratio"),
    [
        (15, 13, "0.956"),
        (20, 18, "1.031"),
        (23, 20, "0.963"),
        (25, 23, "1.078"),
        (28, 25, "1.015"),
        (28, "25.5", "1.056"),
        (30, 28, "1.109"),
    ],
)
def test_pairs_that_charts_print_hold_the_same_within_the_bounds(diameter, side, ratio):
    found = tins.square_for_round(diameter * 10, Fraction(side) * 10)
    assert row("pair", found, ratio, "three charts").holds(), float(found)
    assert tins.is_same_size(found)


def test_a_tin_a_little_further_off_than_any_chart_is_not_the_same_size():
    """The pairs that charts print alike lie between 0.956 and 1.109; these hold 1.19 and 0.88."""
    assert not tins.is_same_size(tins.square_for_round(300, 290))
    assert not tins.is_same_size(tins.square_for_round(150, 125))


def test_a_round_tin_is_lined_on_base_and_wall_and_filled_inside_its_paste():
    """Geometry: 24 cm by 3 cm with 1 cm over the rim is 144 pi + 24 pi x 4 = 240 pi square centimetres.

    Filled outside the paste it holds 144 pi x 3; inside 3 mm of paste 11.7^2 pi x 2.7 cubic centimetres.
    """
    tin = TinData(
        "flan", 1, "round", 240, depth_mm=30, lined_with="A", overhang_mm=10, paste_thickness_tenths_mm=30
    )
    small = replace(tin, diameter_mm=200)
    assert tins.lined_area(tin) == 240 * tins.PI * 100
    assert tins.lining_factor(tin, small) == Fraction(3, 4)
    assert tins.filled_volume(tin, inside=False) == 144 * tins.PI * 3 * 1000
    assert tins.filled_volume(tin) == Fraction("11.7") ** 2 * tins.PI * Fraction("2.7") * 1000
    assert tins.filling_factor(tin, small, inside=False) == Fraction(25, 36)
    assert tins.filling_factor(tin, small) == (Fraction(194) / 234) ** 2
    assert abs(tins.PI - Fraction("3.14159265358979323846264338328")) < Fraction(1, 10**29)


def test_the_row_that_charts_print_wrongly_is_refused():
    """18 cm round for 12.5 cm square stands in several charts and holds 39 % less; 16 cm would do."""
    wrong = tins.square_for_round(180, 125)
    assert row("bad row", wrong, "0.614", "several charts").holds()
    assert not tins.is_same_size(wrong)
    right = tins.square_for_round(180, 160)
    assert row("mended row", right, "1.006", "geometry", "computed").holds() and tins.is_same_size(right)


def test_a_square_tin_of_the_same_width_holds_a_quarter_more():
    ratio = tins.square_for_round(6 * INCH, 6 * INCH)
    assert row("square", ratio, "1.27", "roundcaketins.com, printed as about 25 %", within="0.005").holds()
