from fractions import Fraction

import pytest

from curriculum.foods import rounding


@pytest.mark.parametrize(
    ("exact", "step", "wanted"),
    [(2400, 500, 2500), (2250, 500, 2500), (2249, 500, 2000), (0, 500, 0), (Fraction(1, 3), 1, 0)],
)
def test_nearest_goes_to_the_nearest_step_and_a_half_goes_up(exact, step, wanted):
    assert rounding.nearest(exact, step) == wanted


@pytest.mark.parametrize(
    ("exact", "step", "wanted"),
    [(187_500, 1000, 188_000), (188_000, 1000, 188_000), (Fraction(188_000_001, 1000), 1000, 189_000)],
)
def test_up_never_falls_short_and_leaves_a_multiple_as_it_is(exact, step, wanted):
    assert rounding.up(exact, step) == wanted


def test_a_sum_of_decimals_that_makes_one_pack_is_one_pack():
    assert rounding.up(Fraction(1, 10) + Fraction(2, 10), Fraction(3, 10)) == Fraction(3, 10)


@pytest.mark.parametrize(
    ("exact", "increment", "step"),
    [(20_000, 1000, 1000), (19_999, 1000, 500), (4_999, 1000, 100), (4_999, 50, 50), (300_000, 5000, 5000)],
)
def test_a_small_weight_goes_on_the_fine_scale(exact, increment, step):
    assert rounding.scale_step(exact, increment) == step


def test_salt_goes_to_the_nearest_and_flour_goes_up():
    assert rounding.to_issue(2_420, 500, "nearest") == 2_400
    assert rounding.to_issue(187_100, 1000, "up") == 188_000


def test_something_is_never_rounded_to_nothing():
    assert rounding.to_issue(Fraction(30), 500, "nearest") == 100


def test_the_error_is_a_signed_share_of_the_exact_weight():
    assert rounding.relative_error(3_750, 5_000) == Fraction(1, 3)
    assert rounding.relative_error(0, 0) == 0


def test_a_scale_that_shows_steps_of_nothing_is_refused():
    with pytest.raises(ValueError):
        rounding.up(10, 0)


@pytest.mark.parametrize(
    ("exact", "step"),
    [(4_999, 100), (5_000, 500), (19_999, 500), (20_000, 1_000), (Fraction(99_999, 20), 100)],
)
def test_the_scale_in_use_changes_at_five_and_at_twenty_grams(exact, step):
    assert rounding.scale_step(exact, 1_000) == step
