"""White and yolk share the cost of the egg: by weight, by worth, with a credit for what is kept.

The sums follow the rule of the module; common practice, no source.
"""

from fractions import Fraction

import pytest

from curriculum.foods.costs import PackPrice
from curriculum.foods.joint import Part, joint_cost, shares

YOLK, WHITE = Part("yolk", 18_000), Part("white", 33_000)
PRICED = (
    Part("yolk", 18_000, PackPrice("yolk", 1_000_000, 900)),
    Part("white", 33_000, PackPrice("white", 1_000_000, 400)),
)
USED = {"yolk": 180_000, "white": 66_000}


def test_without_a_price_of_every_part_the_weights_share_the_cost():
    assert shares((YOLK, WHITE)) == {"yolk": Fraction(6, 17), "white": Fraction(11, 17)}
    assert shares((PRICED[0], WHITE))["yolk"] == Fraction(6, 17)


def test_with_a_price_of_every_part_their_worth_shares_the_cost():
    assert shares(PRICED) == {"yolk": Fraction(162, 294), "white": Fraction(132, 294)}


def test_what_is_kept_is_credited_and_what_is_thrown_away_is_borne_by_what_was_used():
    kept = joint_cost(20, 10, (YOLK, WHITE), USED, frozenset({"white"}))
    assert [round(float(kept.borne_pence[food]), 2) for food in ("yolk", "white")] == [70.59, 25.88]
    assert [(left.food, left.milligrams, round(float(left.credit_pence), 2)) for left in kept.left] == [
        ("white", 264_000, 103.53)
    ]
    lost = joint_cost(20, 10, (YOLK, WHITE), USED)
    assert [round(float(lost.borne_pence[food]), 2) for food in ("yolk", "white")] == [146.34, 53.66]


@pytest.mark.parametrize("parts", [(YOLK, WHITE), PRICED])
@pytest.mark.parametrize("kept", [frozenset(), frozenset({"white"}), frozenset({"yolk", "white"})])
@pytest.mark.parametrize("yolk", [1, 90_000, 180_000])
@pytest.mark.parametrize("white", [0, 66_000, 330_000])
def test_what_is_borne_and_credited_is_what_was_paid(parts, kept, yolk, white):
    cost = joint_cost(Fraction(21, 2), 10, parts, {"yolk": yolk, "white": white}, kept)
    credit = sum(left.credit_pence for left in cost.left)
    assert sum(cost.borne_pence.values()) + credit == cost.paid_pence == 105
    assert sum(cost.borne_pence.values()) + credit + 1 != cost.paid_pence


@pytest.mark.parametrize("used", [{}, {"yolk": 0}, {"shell": 1}, {"yolk": 180_001}, {"white": -1, "yolk": 5}])
def test_what_no_egg_gives_is_refused(used):
    with pytest.raises(ValueError):
        joint_cost(20, 10, (YOLK, WHITE), used)


def test_a_piece_is_shared_between_parts_named_once():
    with pytest.raises(ValueError):
        shares(())
    with pytest.raises(ValueError):
        shares((YOLK, YOLK))
    with pytest.raises(ValueError):
        Part("yolk", 0)
