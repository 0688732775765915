import pytest

from curriculum.foods.reading.plain import hidden_sign, plain


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("1½  cups", "1 1/2 cups"),
        ("½\u00a0tsp", "1/2 tsp"),
        ("\uff12\uff15\uff10 g", "250 g"),
        ("1 ㎏ ﬂour", "1 kg flour"),
        ("10² g", "10² g"),
        ("①2 g", "①2 g"),
        ("  2\t g ", "2 g"),
        ("1\u200b0 g", "10 g"),
    ],
)
def test_compatible_letters_become_plain_and_raised_figures_do_not(typed, text):
    assert plain(typed).text == text


def test_every_plain_letter_knows_its_place():
    whole = plain(" 1½  cups")
    assert whole.place("cups") == 5 and whole.end_before(" cups") == 3
    assert whole.place("") == len(" 1½  cups")


@pytest.mark.parametrize(
    ("typed", "place"), [("1\x000 g", 1), ("1\u202e0 g", 1), ("a\tb", None), ("1\u200b g", None)]
)
def test_a_sign_that_cannot_be_seen_is_found(typed, place):
    assert hidden_sign(typed) == place
