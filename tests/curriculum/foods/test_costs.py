from fractions import Fraction

import pytest

from curriculum.foods import costs
from curriculum.foods.costs import PackPrice, Use

FLOUR = PackPrice("flour", 16_000_000, 1360)
EGGS = PackPrice("egg_in_shell", 1_710_000, 600, 30)


def test_a_use_costs_its_share_of_the_pack():
    assert costs.cost_of(Use("flour", Fraction(260_000)), FLOUR) == Fraction(221, 10)


def test_what_is_handed_out_by_the_piece_costs_by_the_piece():
    assert costs.cost_of(Use("egg_in_shell", Fraction(1), Fraction(43, 10)), EGGS) == 86


def test_a_total_is_rounded_once_and_names_what_has_no_price():
    uses = [Use("flour", Fraction(260_000)), Use("saffron", Fraction(1)), Use("water", Fraction(9))]
    found = costs.total(uses, {"flour": FLOUR}, frozenset({"water"}))
    assert costs.pence(found.exact_pence) == 22 and found.without_price == ("saffron",)


@pytest.mark.parametrize(
    ("exact", "pence"), [(Fraction(1, 2), 1), (Fraction(49, 100), 0), (Fraction(265, 2), 133)]
)
def test_half_a_penny_goes_up(exact, pence):
    assert costs.pence(exact) == pence


def test_a_pack_of_nothing_is_refused():
    with pytest.raises(ValueError):
        PackPrice("flour", 0, 100)
    with pytest.raises(ValueError):
        PackPrice("flour", 1, -1)


def test_a_portion_is_a_share():
    assert costs.a_portion(1081, 8) * 8 == 1081


def test_a_kilogram_of_flour_is_a_sixteenth_of_its_sack():
    assert costs.a_kilogram(FLOUR) == 85
