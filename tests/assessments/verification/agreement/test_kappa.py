"""Kappas against Cohen 1960 and 1968, Fleiss 1971, and tables of a reference library."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.verification.agreement.kappa import (
    fleiss_kappa,
    linear,
    plain,
    quadratic,
    table_of,
    weighted_kappa,
)

#: Cohen's proportions (data from memory; check-values 10.4).
COHEN = [[0.44, 0.07, 0.09], [0.05, 0.20, 0.05], [0.01, 0.03, 0.06]]
DISAGREE = [[0, 1, 3], [1, 0, 6], [3, 6, 0]]
PAIRS = st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=2, max_size=30)


def test_cohens_kappas_are_the_published_ones():
    assert weighted_kappa(COHEN) == pytest.approx(0.492, abs=0.0005)
    assert weighted_kappa(COHEN, lambda i, j: DISAGREE[i][j]) == pytest.approx(0.348, abs=0.0005)


def test_linear_and_quadratic_weights():
    # Ran outside the project with a reference library (check-values 10.4).
    assert weighted_kappa(COHEN, linear) == pytest.approx(0.473684, abs=1e-6)
    assert weighted_kappa(COHEN, quadratic) == pytest.approx(0.454545, abs=1e-6)


@pytest.mark.parametrize(
    "counts, fixed, free",
    [([[7, 1], [3, 5]], 0.161905, 0.214286), ([[6, 1, 0], [0, 7, 0]], 0.708333, 0.785714)],
)
def test_fleiss_of_two_small_tables(counts, fixed, free):
    # Figures of the tests of statsmodels (check-values 10.3).
    assert fleiss_kappa(counts) == pytest.approx(fixed, abs=1e-6)
    assert fleiss_kappa(counts, free=True) == pytest.approx(free, abs=1e-6)


@given(PAIRS)
def test_weighting_all_alike_on_two_steps_is_the_plain_kappa(pairs):
    table = table_of([(a % 2, b % 2) for a, b in pairs], 2)
    assert weighted_kappa(table, linear) == pytest.approx(weighted_kappa(table, plain))
    assert weighted_kappa(table, quadratic) == pytest.approx(weighted_kappa(table, plain))


@given(PAIRS)
def test_who_is_called_first_does_not_matter(pairs):
    turned = [(b, a) for a, b in pairs]
    assert weighted_kappa(table_of(pairs, 4), quadratic) == pytest.approx(
        weighted_kappa(table_of(turned, 4), quadratic)
    )


def test_nothing_to_disagree_about_is_no_kappa():
    assert weighted_kappa(table_of([(2, 2), (2, 2)], 4)) is None
    assert fleiss_kappa([[3, 0], [3, 0]]) is None


def test_a_step_beside_the_ladder_and_a_mark_too_few_are_refused():
    with pytest.raises(ValueError, match="ladder of 4"):
        table_of([(4, 1)], 4)
    with pytest.raises(ValueError, match="same number of markers"):
        fleiss_kappa([[2, 1], [1, 1]])
