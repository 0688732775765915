"""A count against the book: the difference in words, and when it asks why."""

import pytest

from kitchen.stores.moves.counting import Counted, Difference


@pytest.mark.parametrize(
    ("book", "counted", "words", "asks"),
    [
        (5_000_000, 4_850_000, "150 g less", True),
        (5_000_000, 4_950_000, "50 g less", False),
        (5_000_000, 4_900_000, "100 g less", False),
        (5_000_000, 5_101_000, "101 g more", True),
        (5_000_000, 5_000_000, "as in the book", False),
        (0, 1_000, "1 g more", True),
        (0, 0, "as in the book", False),
    ],
)
def test_more_than_a_fiftieth_of_the_book_asks_why(book, counted, words, asks):
    found = Difference(book, counted)
    assert (found.words, found.asks_why) == (words, asks)


def test_what_is_counted_is_said_in_pieces():
    found = Difference(570_000, 456_000, 57_000)
    assert found.words == "2 pieces less"
    assert found.why_words == (
        "10 pieces in the book, 8 pieces counted: 2 pieces less, more than 2 % of the book. "
        "Count again, or say why."
    )


def test_less_than_nothing_cannot_lie_there():
    with pytest.raises(ValueError):
        Counted("LT-1", -1, 1)
