"""As bought and usable, against teaching texts and buying guides."""

from fractions import Fraction

import pytest

from curriculum.foods import rounding, yields
from tests.published.rows import row

BC = "BCcampus, Basic Kitchen and Food Service Management, example 12 (results read in a copy)"
GUIDE = "USDA Food Buying Guide"


def _per_cent(bought, left):
    return yields.share(Fraction(bought), Fraction(left)) * 100


ROWS = [
    row("tenderloin 2.5 kg less 750 g", _per_cent("2500", "1750"), "exact 70", BC, "read in a copy"),
    row("tuna tin", _per_cent("750", "400"), "53.33", BC, "read in a copy"),
    row("striploin 5.2 to 4.6 kg", _per_cent("5.2", "4.6"), "88.5", "a teaching kitchen's yield test"),
    row("sprouts: 8 lb of 10 lb", yields.usable(10, 800), "exact 8", "a culinary arithmetic text"),
    row("sprouts: 10 lb needed", yields.as_bought(10, 800), "exact 12.5", "the same text", "computed"),
    row("mango: 10 lb needed at 75 %", yields.as_bought(10, 750), "13.333", "the same text", "computed"),
    row("lamb: 12 lb at 0.425", yields.as_bought(12, 425), "28.24", "a cooking-loss exercise", "computed"),
    row(
        "striploin needed: 85 x 170 g",
        yields.as_bought(Fraction("14.45"), 885),
        "16.33",
        "yield test",
        "computed",
    ),
]


@pytest.mark.parametrize("each", ROWS, ids=lambda each: each.what)
def test_a_yield_is_what_was_published(each):
    assert each.holds(), float(each.computed)


def test_a_published_figure_that_was_cut_and_not_rounded_is_known_as_such():
    """Salmon 7.75 kg less 2.75 kg is printed as 64.51 %: the exact 64.516 cut, not rounded."""
    exact = _per_cent("7.75", "5")
    assert exact > Fraction("64.515") and exact - Fraction("64.51") < Fraction("0.01"), BC


@pytest.mark.parametrize(
    ("servings", "printed"),
    [
        ("1.49", "67.2"),
        ("2.84", "35.3"),
        ("5.97", "16.8"),
        ("10", "10.0"),
        ("7.17", "14.0"),
        ("8.10", "12.4"),
    ],
)
def test_purchases_are_rounded_up_as_the_buying_guide_rounds_them(servings, printed):
    exact = Fraction(100) / Fraction(servings)
    tenths = rounding.up(exact * 10, 1)
    assert Fraction(tenths, 10) == Fraction(printed), f"{GUIDE}: units for 100 servings"


def test_ordinary_rounding_would_not_have_met_the_guide():
    assert Fraction(rounding.nearest(Fraction(100) / Fraction("1.49") * 10, 1), 10) != Fraction("67.2")
