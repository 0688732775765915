from dataclasses import replace
from fractions import Fraction

from curriculum.foods.costs import PackPrice
from curriculum.recipes.egg_costs import shared_cost
from tests.curriculum.recipes.test_egg_counts import PARTS, eggs_of

EGGS = {"egg_in_shell": PackPrice("egg_in_shell", 1_710_000, 600, 30)}


def test_the_yolk_of_eight_eclair_benches_bears_its_part_and_the_white_is_worth_the_rest():
    """45 eggs at 20 pence: £9.00; by weight the yolk has 18/48, of which 800 of 810 g are used."""
    shared = shared_cost(eggs_of("R03", 8), PARTS, EGGS)
    assert shared.paid_pence == 900 and shared.by == "weight"
    assert sum(shared.borne_pence.values()) + sum(left.credit_pence for left in shared.left) == 900
    white = next(left for left in shared.left if left.food == "egg_white")
    assert (white.milligrams, white.credit_pence) == (1_350_000, Fraction(900 * 30, 48))


def test_white_that_no_recipe_takes_earns_nothing_back():
    count = eggs_of("R03", 8)
    thrown = replace(count, left=tuple(replace(left, makes=()) for left in count.left))
    shared = shared_cost(thrown, PARTS, EGGS)
    assert {left.credit_pence for left in shared.left} == {0} and sum(shared.borne_pence.values()) == 900


def test_eggs_that_are_only_beaten_or_have_no_price_share_nothing():
    assert shared_cost(eggs_of("R01", 7), PARTS, EGGS) is None
    assert shared_cost(eggs_of("R03", 7), PARTS, {}) is None


def test_a_part_that_the_book_does_not_know_is_not_costed():
    assert shared_cost(eggs_of("R03", 7, parts=PARTS), PARTS[:2], EGGS) is None
