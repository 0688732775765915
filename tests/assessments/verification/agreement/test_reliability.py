"""Intraclass correlations and generalizability against Shrout and Fleiss 1979, and their identities."""

from statistics import variance

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.verification.agreement.reliability import components, intraclass, squares

#: Shrout and Fleiss 1979, table 2 (data and results from memory; check-values 10.1).
SHROUT = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
MARKS = st.integers(2, 5).flatmap(
    lambda k: st.lists(st.lists(st.integers(0, 10), min_size=k, max_size=k), min_size=2, max_size=9)
)


def test_means_of_squares_are_the_published_ones():
    s = squares(SHROUT)
    assert (s.between, s.within, s.by_marker, s.rest) == pytest.approx((11.24, 6.26, 32.49, 1.02), abs=0.005)


def test_all_six_correlations_are_the_published_ones():
    found = intraclass(SHROUT)
    assert (found.one_way, found.absolute, found.consistent) == pytest.approx((0.17, 0.29, 0.71), abs=0.005)
    means = (found.mean_one_way, found.mean_absolute, found.mean_consistent)
    assert means == pytest.approx((0.44, 0.62, 0.91), abs=0.005)


def test_components_and_what_more_markers_bring():
    # Ran outside the project with numpy (check-values 10.1).
    c = components(SHROUT)
    assert (c.plates, c.markers, c.rest) == pytest.approx((2.555556, 5.244444, 1.019444), abs=1e-6)
    order = [c.generalizability(k) for k in (1, 2, 4)]
    assert order == pytest.approx([0.714841, 0.833711, 0.909316], abs=1e-6)
    mark = [c.dependability(k) for k in (1, 2, 4)]
    assert mark == pytest.approx([0.289764, 0.449328, 0.620051], abs=1e-6)
    assert (c.relative_error(), c.absolute_error()) == pytest.approx((1.009675, 2.502776), abs=1e-6)


def test_consistency_of_the_mean_is_cronbachs_alpha():
    # Alpha by its own definition: k/(k - 1) of one less the columns' variances over that of the sums.
    k = len(SHROUT[0])
    columns = sum(variance(column) for column in zip(*SHROUT, strict=True))
    alpha = k / (k - 1) * (1 - columns / variance([sum(row) for row in SHROUT]))
    assert alpha == pytest.approx(0.909316, abs=1e-6)
    assert intraclass(SHROUT).mean_consistent == pytest.approx(alpha, abs=1e-9)


@given(MARKS)
def test_generalizability_is_the_consistent_and_dependability_the_absolute_correlation(marks):
    c, found, k = components(marks), intraclass(marks), len(marks[0])
    s = squares(marks)
    if s.between > s.rest > 1e-9 and s.by_marker >= s.rest:
        assert c.generalizability(k) == pytest.approx(found.mean_consistent)
        assert c.generalizability(1) == pytest.approx(found.consistent)
        assert c.dependability(k) == pytest.approx(found.mean_absolute)
        assert c.dependability(1) == pytest.approx(found.absolute)


def test_a_component_below_nought_is_nought():
    # Both markers disagree the same way on every plate: the plates explain nothing.
    c = components([[1, 3], [3, 1], [2, 2], [1, 3], [3, 1]])
    assert (c.plates, c.markers) == (0, 0)
    assert c.generalizability(2) == 0


def test_one_marker_more_lenient_is_consistent_and_not_in_agreement():
    found = intraclass([[1, 4], [2, 5], [3, 6], [4, 7]])
    assert found.consistent == pytest.approx(1)
    assert found.absolute < 0.4


def test_equal_marks_everywhere_say_nothing():
    assert intraclass([[5, 5], [5, 5], [5, 5]]).absolute is None


@pytest.mark.parametrize("marks", [[], [[1, 2]], [[1], [2]], [[1, 2], [3]]])
def test_too_few_marks_are_refused(marks):
    with pytest.raises(ValueError, match="At least two plates"):
        squares(marks)
