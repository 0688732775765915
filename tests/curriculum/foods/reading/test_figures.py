from fractions import Fraction as F

import pytest

from curriculum.foods.reading.figures import Unreadable, figure, number


@pytest.mark.parametrize(
    ("text", "value", "rest"),
    [
        ("1 1/2 cups", F(3, 2), "cups"),
        ("one and a half cups", F(3, 2), "cups"),
        ("2 and 3/4 cups", F(11, 4), "cups"),
        ("three quarters of a cup", F(3, 4), "cup"),
        ("a quarter of a cabbage", F(1, 4), "cabbage"),
        (".5 tsp", F(1, 2), "tsp"),
        ("1,5 l", F(3, 2), "l"),
        ("0,250 kg", F(1, 4), "kg"),
        ("1.2345 g", F(12345, 10000), "g"),
        ("half fat cream", None, "half fat cream"),
        ("twenty-two", None, "twenty-two"),
    ],
)
def test_a_figure_and_what_is_left(text, value, rest):
    assert figure(text) == (value, rest)


def test_dozens_are_counted_out():
    assert number("1 1/2 dozen eggs") == (18, "eggs") and number("half a dozen eggs") == (6, "eggs")


@pytest.mark.parametrize("text", ["1,500", "1.500", "12.345.678", "1 3/2", "1/0", "1" * 13])
def test_a_figure_of_two_meanings_or_none_is_refused(text):
    with pytest.raises(Unreadable):
        figure(text)
