"""needed + allowance = issued, and an order asks for pooled pieces."""

from fractions import Fraction

from kitchen.stores.needs import Need


def test_the_allowance_is_what_rounding_adds():
    need = Need("flour", "Flour", Fraction(2_727_272), 2_730_000)
    assert (need.allowance_milligrams, need.ordered_milligrams) == (2_728, 2_730_000)


def test_an_order_asks_for_pooled_pieces_and_the_kits_get_their_own():
    eggs = Need("egg", "Egg", Fraction(73), 85 * 57_000, pieces=85, pooled_pieces=74, unit_milligrams=57_000)
    assert eggs.ordered_milligrams == 74 * 57_000
