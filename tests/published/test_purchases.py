"""Purchases are rounded up: the published pairs of a food buying guide.

Source: USDA Food Buying Guide for Child Nutrition Programs, purchase units for 100
servings against servings per unit (read). The guide rounds up to one decimal: 100 / 1.49 =
67.11 is printed 67.2, which ordinary rounding would not give.
"""

import pytest

from kitchen.stores.packs import packs_for

#: servings per unit in hundredths, purchase units for 100 servings in tenths.
PAIRS = [(149, 672), (284, 353), (597, 168), (1000, 100), (717, 140), (810, 124)]


@pytest.mark.parametrize(("servings_hundredths", "tenths"), PAIRS)
def test_the_guide_rounds_purchases_up_to_the_tenth(servings_hundredths, tenths):
    assert packs_for(100 * 100 * 10, servings_hundredths) == tenths


def test_ordinary_rounding_would_fail_the_first_two_pairs():
    assert [round(100_000 / servings) for servings, _ in PAIRS[:2]] == [671, 352]
