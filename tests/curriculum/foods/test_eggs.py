from fractions import Fraction

import pytest

from curriculum.foods import eggs
from curriculum.foods.eggs import PartNeed


def _beaten(grams):
    return PartNeed("egg_beaten", Fraction(grams * 1000), 50_000)


def _yolk(grams):
    return PartNeed("egg_yolk", Fraction(grams * 1000), 18_000)


def _white(grams):
    return PartNeed("egg_white", Fraction(grams * 1000), 30_000)


def test_beaten_and_yolk_take_pieces_of_their_own():
    assert eggs.exact_pieces([_beaten(240), _yolk(100)]) == Fraction(240, 50) + Fraction(100, 18)
    assert eggs.pieces_needed([_beaten(240), _yolk(100)]) == 11


def test_white_and_yolk_come_out_of_the_same_piece():
    assert eggs.pieces_needed([_white(150), _yolk(40), _beaten(100)]) == 7


def test_parts_of_two_components_are_added_before_they_are_rounded():
    assert eggs.pieces_needed([_beaten(200), _beaten(15)]) == 5


def test_pooling_over_benches_adds_first_and_rounds_once():
    one = eggs.exact_pieces([_beaten(200), _beaten(15)])
    assert eggs.whole_pieces(one) * 17 == 85
    assert eggs.whole_pieces(one * 17) == 74


def test_what_is_left_of_separated_pieces_is_named():
    left = eggs.left_over([_yolk(700)], {"egg_white": 30_000, "egg_yolk": 18_000})
    assert left == {"egg_white": 39 * 30_000, "egg_yolk": 39 * 18_000 - 700_000}


def test_nothing_needed_is_no_egg():
    assert eggs.pieces_needed([]) == 0


@pytest.mark.parametrize(("milligrams", "size"), [(52_999, "small"), (53_000, "medium")])
def test_a_class_begins_at_its_boundary(milligrams, size):
    assert eggs.size_class(milligrams) == size
