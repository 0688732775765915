"""What must be left in a pack, and what a difference means. Tolerances are our own choice, no source."""

from kitchen.stores.weighout.tally import (
    FoodTally,
    LotTally,
    Reading,
    blind_words,
    reading_words,
    tolerance_of,
)

BENCH = 130_000
WEIGHTS = (BENCH,) * 3


def a_reading(left, expected=610_000):
    return Reading(left, expected, "10:51, HB")


def test_what_must_be_left_is_the_book_less_all_that_stands_weighed_out_of_it():
    tally = LotTally("LS-2207", 1_000_000, weights=WEIGHTS)
    assert tally.words == "1,000 g in the book, 390 g weighed out, so 610 g must be left."
    assert LotTally("A", 1_000_000, weights=WEIGHTS, elsewhere=200_000).remains == 410_000


def test_more_weighed_than_the_book_has_is_said():
    assert "90 g more than the book has" in LotTally("A", 300_000, weights=WEIGHTS).words


def test_pieces_are_counted():
    tally = LotTally("EG", 30 * 57_000, weights=(5 * 57_000,), unit=57_000)
    assert tally.words == "30 pieces in the book, 5 pieces weighed out, so 25 pieces must be left."
    assert FoodTally(570_000, 285_000, (), 57_000).words == "5 pieces of 10 pieces weighed."


def test_a_pack_that_agrees_says_nothing():
    assert reading_words(a_reading(607_000), WEIGHTS, tolerance_of(WEIGHTS, 10, 1000)) == ""


def test_a_bench_too_little_was_weighed_twice_and_a_bench_too_much_was_forgotten():
    tolerance = tolerance_of(WEIGHTS, 10, 1000)
    twice = reading_words(a_reading(480_000), WEIGHTS, tolerance)
    assert "130 g less" in twice and "as much as one weight. Was a bench weighed twice?" in twice
    forgotten = reading_words(a_reading(868_000), WEIGHTS, tolerance)
    assert "as much as two weights. Was a bench tapped and not weighed?" in forgotten


def test_a_difference_that_no_number_of_benches_makes_is_said_too():
    assert "No number of benches makes that" in reading_words(a_reading(560_000), WEIGHTS, 4000)
    assert "No number of benches" in reading_words(a_reading(610_000 + 5 * BENCH), WEIGHTS, 4000)


def test_the_tolerance_is_the_share_but_no_less_than_half_a_step_a_weight():
    assert tolerance_of(WEIGHTS, 10, 1000) == 3900
    assert tolerance_of((3000,) * 7, 10, 500) == 1750
    assert tolerance_of((), 10, 500) == 500


def test_where_a_bench_would_not_show_the_words_say_so():
    assert blind_words((1000,) * 4, 1000) and not blind_words(WEIGHTS, 3900) and not blind_words((), 500)
