"""Mean difference and its limits against Bland and Altman 1986."""

import pytest

from assessments.verification.agreement.differences import differences

#: Peak flow of 17 people by a large and a small meter, first readings (data from memory; check-values 10.7).
LARGE = (494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427)
SMALL = (512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451)


def test_mean_and_spread_are_the_published_ones():
    found = differences(list(zip(LARGE, SMALL, strict=True)))
    assert found.mean == pytest.approx(-2.1, abs=0.05)
    assert found.spread == pytest.approx(38.8, abs=0.05)
    # 1.96 standard deviations ran outside the project; the paper takes 2 and rounded figures.
    assert (found.lower, found.upper) == pytest.approx((-78.097, 73.862), abs=0.001)


def test_the_worked_example():
    found = differences([(6, 5), (7, 7), (5, 4), (8, 7)])
    assert (found.pairs, found.mean, found.spread, found.same, found.within_a_step) == (4, 0.75, 0.5, 1, 4)
    assert (found.lower, found.upper) == pytest.approx((-0.23, 1.73))


def test_steps_are_counted_in_the_unit_of_the_ladder():
    found = differences([(6, 5), (7, 4), (5, 5)], step=2)
    assert (found.within_a_step, found.per_cent_within) == (2, 67)


def test_one_pair_has_no_spread_and_none_no_difference():
    assert differences([(6, 5)]).spread is None
    with pytest.raises(ValueError, match="marked by both"):
        differences([])
