"""Issued, used and returned are three numbers, and the money follows them."""

from fractions import Fraction

from curriculum.foods.costs import PackPrice, Use
from kitchen.stores.moves.lesson.tally import Asked, Money, Moved, Tally, money, summed, tallies

MOVES = [
    Moved(1, "issue", -1_000_000),
    Moved(1, "supplementary", -150_000),
    Moved(1, "return", 250_000),
    Moved(1, "waste", -50_000),
]
PRICES = {"flour": PackPrice("flour", 1_000_000, 90)}


def test_what_was_thrown_away_came_back_and_is_neither_used_nor_returned():
    tally = tallies(MOVES)[1]
    assert tally == Tally(1_000_000, 150_000, 200_000, 50_000)
    assert (tally.used, tally.paid) == (900_000, 950_000)


def test_what_is_kept_for_re_work_is_not_paid_for():
    tally = tallies([*MOVES, Moved(1, "return", 100_000), Moved(1, "rework", 100_000)])[1]
    assert (tally.returned, tally.reworked, tally.used, tally.paid) == (200_000, 100_000, 800_000, 850_000)


def test_foods_are_counted_apart():
    assert set(tallies([*MOVES, Moved(2, "issue", -5)])) == {1, 2}


def test_the_cost_is_rounded_once_and_shared_by_learners_and_portions():
    uses = [Use("flour", Fraction(950_000)), Use("gold", Fraction(1))]
    assert money(uses, PRICES, 4, 8) == Money(86, 21, 11, ("gold",))


def test_nobody_there_shares_nothing():
    assert money([], PRICES, 0, 0) == Money(0, None, None)


def test_what_is_planned_is_added_up_by_food_and_the_part_that_is_shown_can_be_taken_alone():
    asked = [Asked(1, 400), Asked(1, 100, shown=True), Asked(2, 5)]
    assert summed(asked) == {1: 500, 2: 5}
    assert summed(each for each in asked if each.shown) == {1: 100}
