"""Krippendorff's alpha against the data set of three coders, and its identities."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.verification.agreement.alpha import alpha
from assessments.verification.agreement.kappa import fleiss_kappa

#: Three coders and fifteen units (data from memory; check-values 10.5, set W). "*" is no mark.
CODERS = (
    "* * * * * 3 4 1 2 1 1 3 3 * 3",
    "1 * 2 1 3 3 4 3 * * * * * * *",
    "* * 2 1 3 4 4 * 2 1 1 3 3 * 4",
)
ROWS = [[None if mark == "*" else int(mark) for mark in coder.split()] for coder in CODERS]
UNITS = [list(unit) for unit in zip(*ROWS, strict=True)]


@pytest.mark.parametrize(
    "level, figure",
    [("nominal", 0.691358), ("ordinal", 0.806721), ("interval", 0.810845), ("ratio", 0.808944)],
)
def test_alpha_at_every_level(level, figure):
    # Nominal .691 and interval .811 are published; all ran outside the project (check-values 10.5).
    assert alpha(UNITS, level) == pytest.approx(figure, abs=1e-6)


def test_the_worked_example():
    # Coincidences 1-1 twice, 1-2 and 2-1 once each; of four marks three are 1.
    assert alpha([(1, 1), (2, 1)], "nominal") == pytest.approx(0.0)


@given(st.lists(st.lists(st.integers(0, 1), min_size=3, max_size=3), min_size=4, max_size=30))
def test_on_two_categories_without_gaps_all_levels_are_one(units):
    nominal = alpha(units, "nominal")
    assert alpha(units, "interval") == pytest.approx(nominal)
    assert alpha(units, "ordinal") == pytest.approx(nominal)


def test_with_many_plates_nominal_alpha_is_fleiss_kappa():
    # Alpha corrects for the number of marks, kappa does not: 1 - alpha is (1 - kappa) (N - 1) / N.
    units = [(0, 0, 1), (1, 1, 1), (0, 0, 0), (2, 1, 2), (2, 2, 2), (0, 2, 0)]
    counts = [[unit.count(category) for category in range(3)] for unit in units]
    whole = 3 * len(units)
    kappa = fleiss_kappa(counts)
    assert 1 - alpha(units, "nominal") == pytest.approx((1 - kappa) * (whole - 1) / whole)


def test_nothing_to_disagree_about_is_no_alpha():
    assert alpha([(3, 3), (3, 3)]) is None
    assert alpha([(3, None), (None, 2)]) is None
