"""Amounts that others scaled and printed, through the one function that scales words."""

from fractions import Fraction

import pytest

from curriculum.foods import units
from curriculum.foods.handwriting import scaled_words
from curriculum.foods.measures import read_amount

SCHOOLS = "USDA Recipes for Schools, chicken or turkey salad E-07 (25 and 50 servings) and E-05"
FORCES = "US forces recipe card A-1: 348 portions of a recipe for 100, factor 3.48 (read)"
PAIRS = [
    ("3 lb 3 oz", 2, "6 lb 6 oz", SCHOOLS),
    ("2 qt 2 cups", 2, "1 gal 1 qt", SCHOOLS),
    ("11 oz", 2, "1 lb 6 oz", SCHOOLS),
    ("2 1/2 cups 2 Tbsp", 2, "1 qt 1 1/4 cups", SCHOOLS),
    ("6 oz", 2, "12 oz", SCHOOLS),
    ("1 cup", 2, "2 cups", SCHOOLS),
    ("7 1/2 oz", 2, "15 oz", SCHOOLS),
    ("3/4 cup 2 Tbsp", 2, "1 3/4 cups", SCHOOLS),
    ("6 lb 6 oz", 2, "12 lb 12 oz", SCHOOLS),
    ("1 gal 1 qt", 2, "2 gal 2 qt", SCHOOLS),
    ("1.25 lb", Fraction("3.48"), "4 lb 5 1/2 oz", FORCES),
]


def _typed(words):
    """Our fraction marks as a typewriter prints them."""
    for mark, figure in (("¼", "1/4"), ("½", "1/2"), ("¾", "3/4")):
        words = words.replace(f" {mark}", f" {figure}").replace(mark, f" {figure}")
    return words.strip()


@pytest.mark.parametrize(("before", "factor", "printed", "source"), PAIRS)
def test_an_amount_is_scaled_to_the_words_that_were_printed(before, factor, printed, source):
    assert _typed(scaled_words(before, units.US, factor)) == printed, source


@pytest.mark.parametrize(("before", "factor", "printed", "source"), PAIRS[:-1])
def test_and_the_printed_words_are_exactly_so_much(before, factor, printed, source):
    one, other = read_amount(before, units.US), read_amount(printed, units.US)
    assert one.most * one.unit.size * factor == other.most * other.unit.size, source


def test_the_card_rounds_its_ounces_and_so_do_we():
    exact = read_amount("1.25 lb").milligrams * Fraction("3.48") / units.OUNCE.size
    assert exact == Fraction("69.6") and pytest.approx(5.6) == 69.6 - 64, FORCES
