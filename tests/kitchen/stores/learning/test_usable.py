"""What is left after trimming, from the college's own weighings."""

from datetime import date

from curriculum.foods import yields
from kitchen.stores.learning.usable import Weighed, propose, trimmed
from tests.builders.learning import a_lesson_food

KILO = 1_000_000


def weighed(bought, usable, day=1):
    return Weighed(yields.TestedYield(date(2027, 1, day), bought, usable), "Hana")


def test_tests_are_pooled_by_weight_and_not_by_their_mean():
    found = propose("leek", [weighed(6 * KILO, 5_200_000), weighed(4 * KILO, 3_200_000, 2)], 750)
    assert (found.amount, found.values) == (840, (800, 867))
    assert not found.enough


def test_three_tests_are_enough():
    found = propose("leek", [weighed(KILO, 800_000, day) for day in (1, 2, 3)], 750)
    assert found.enough and found.changes_something and found.amount == 800


def test_without_a_test_nothing_is_proposed():
    assert propose("leek", [], 750) is None


def test_trim_of_a_lesson_says_what_was_usable_at_most():
    lesson = a_lesson_food(issued=4 * KILO, sealed=0, thrown={"trim": 900_000})
    assert trimmed([lesson, a_lesson_food(2)]) == ((lesson, 775),)


def test_a_lesson_left_out_says_nothing_of_trim_either():
    assert trimmed([a_lesson_food(thrown={"trim": 900_000}, out_why="It was cancelled.")]) == ()
