from fractions import Fraction

import pytest

from curriculum.foods import units
from curriculum.foods.handwriting import written
from curriculum.foods.measures import read_amount


@pytest.mark.parametrize(
    "words",
    [
        "1 gal 1 qt",
        "2 gal 2 qt",
        "1 qt 1¼ cups",
        "¾ cup 2 tbsp",
        "1¾ cups",
        "2 cups",
        "½ tsp",
        "1⅛ tsp",
        "1 tbsp 1 tsp",
    ],
)
def test_a_volume_is_written_as_it_was_read(words):
    amount = read_amount(words, units.US)
    assert written(amount.millilitres, "volume", units.US) == words


@pytest.mark.parametrize("words", ["4 lb 5½ oz", "12 lb 12 oz", "7½ oz", "15 oz", "1 lb"])
def test_a_weight_is_written_as_it_was_read(words):
    amount = read_amount(words)
    assert written(amount.milligrams, "mass", units.IMPERIAL) == words


def test_what_is_between_two_marks_goes_to_the_nearest():
    assert written(units.OUNCE.size * Fraction(559, 100), "mass", units.US) == "5½ oz"


def test_nothing_is_written_as_nothing_and_metric_has_grams_anyway():
    assert written(Fraction(0), "mass", units.US) == "0 oz"
    assert written(Fraction(1000), "mass", units.METRIC) == ""
