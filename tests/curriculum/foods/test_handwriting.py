from fractions import Fraction

import pytest

from curriculum.foods import units
from curriculum.foods.handwriting import scaled_words, written
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


@pytest.mark.parametrize(
    ("words", "system", "factor", "said"),
    [
        ("2-3 cups", units.US, 2, "4 to 6 cups"),
        ("1/3 cup", units.US, 2, "⅔ cup"),
        ("1 stick", units.US, 2, "2 sticks"),
        ("1 tsp", units.METRIC, 3, "1 tbsp"),
        ("1 tbsp", units.AUSTRALIAN, 5, "5 tbsp"),
        ("2 tbsp", units.METRIC, 10, "300 ml"),
        ("1 pint", units.IMPERIAL, Fraction(3, 2), "1½ pt"),
        ("250 g", "", Fraction(7, 3), "583 g"),
        ("250g", "", 6, "1.5 kg"),
        ("0.5 g", "", 1, "0.5 g"),
        ("1,5 l", "", 2, "3 l"),
        ("2 x 400 g", "", 2, "4 x 400 g"),
        ("2 x 400 g", "", Fraction(3, 4), "600 g"),
        ("a pinch", "", 3, "3 pinches"),
        ("2 cloves", "", Fraction(5, 4), "2½ cloves"),
        ("half a dozen", "", 2, "12"),
        ("to taste", "", 30, "to taste"),
    ],
)
def test_words_are_scaled_in_the_measure_they_were_written_in(words, system, factor, said):
    assert scaled_words(words, system, factor) == said


@pytest.mark.parametrize(
    ("words", "system", "factor"),
    [
        ("1 cup", "", 2),
        ("1 cup", units.US, 0),
        ("1 cup", units.US, -1),
        ("1/8 tsp", units.METRIC, Fraction(1, 100)),
        ("a little", units.US, 2),
        ("", "", 2),
        ("1 g", "", Fraction(1, 1000)),
    ],
)
def test_what_cannot_be_said_is_not_said(words, system, factor):
    assert scaled_words(words, system, factor) is None


@pytest.mark.parametrize(
    ("before", "factor", "words"),
    [
        ("8 tbsp", 1, "8 tbsp"),
        ("4 tsp", Fraction(241, 40), "120 ml"),
        ("8 tbsp", Fraction(25, 24), "125 ml"),
        ("5 g", 2, "10 g"),
        ("5 g", Fraction(10_004, 5_000), "10 g"),
        ("10 g", Fraction(104, 100), "10 g"),
        ("10 g", Fraction(99, 100), "9.9 g"),
    ],
)
def test_spoons_end_at_120_ml_and_tenths_at_ten_grams(before, factor, words):
    assert scaled_words(before, units.METRIC, factor) == words


@pytest.mark.parametrize(("factor", "words"), [("1.14", "5¾ oz"), ("1.12", "5½ oz"), ("1.13", "5¾ oz")])
def test_ounces_go_to_the_nearest_quarter(factor, words):
    """5.70, 5.60 and 5.65 oz."""
    assert scaled_words("5 oz", units.US, Fraction(factor)) == words
