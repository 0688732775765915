"""How well markers agree, against two libraries of statistics (statsmodels, krippendorff) and published data.

What is published is said beside each; everything drawn is compared with the library of that name.
"""

import krippendorff
import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm
from statsmodels.stats.inter_rater import aggregate_raters, cohens_kappa
from statsmodels.stats.inter_rater import fleiss_kappa as library_fleiss
from statsmodels.stats.tests.test_inter_rater import diagnoses

from assessments.verification.agreement.alpha import alpha
from assessments.verification.agreement.kappa import (
    fleiss_kappa,
    linear,
    plain,
    quadratic,
    table_of,
    weighted_kappa,
)
from assessments.verification.agreement.reliability import components, intraclass, squares

#: Shrout and Fleiss, Psychological Bulletin 1979;86:420-428, table 2 (data from memory; check-values 10.1).
SHROUT = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
LEVELS = ("nominal", "ordinal", "interval", "ratio")
WEIGHTS = ((plain, None), (linear, "linear"), (quadratic, "quadratic"))
#: A mark of a ladder of five steps, or none.
MARK = st.none() | st.integers(0, 4)


def plates(mark, least=1):
    """Lists of plates by two to five markers, a row a plate."""
    rows = st.integers(2, 5).map(lambda k: st.lists(mark, min_size=k, max_size=k))
    return rows.flatmap(lambda row: st.lists(row, min_size=least, max_size=12))


def library_alpha(rows, level):
    """Alpha of the library krippendorff: a row a marker there, nan for no mark."""
    data = np.array([[np.nan if mark is None else mark for mark in row] for row in rows], dtype=float).T
    return krippendorff.alpha(reliability_data=data, level_of_measurement=level)


def pairable(rows):
    """The marks of plates that have two or more."""
    given = [[mark for mark in row if mark is not None] for row in rows]
    return [mark for row in given if len(row) > 1 for mark in row]


def test_fleiss_of_his_own_thirty_patients():
    # Fleiss, Psychological Bulletin 1971;76:378-382: thirty patients, six raters, five diagnoses, kappa .430
    # (figure from memory; the ratings stand in the tests of statsmodels; check-values 10.3).
    counts = aggregate_raters(diagnoses)[0].astype(int).tolist()
    assert (len(counts), sum(counts[0]), len(counts[0])) == (30, 6, 5)
    assert fleiss_kappa(counts) == pytest.approx(0.430, abs=0.0005)
    assert fleiss_kappa(counts) == pytest.approx(library_fleiss(counts), abs=1e-12)
    assert fleiss_kappa(counts, free=True) == pytest.approx(library_fleiss(counts, method="rand"), abs=1e-12)


def test_the_thirty_patients_by_alpha_too():
    for level in LEVELS:
        ours, theirs = alpha(diagnoses.tolist(), level), library_alpha(diagnoses.tolist(), level)
        assert ours == pytest.approx(theirs, abs=1e-9)


@given(plates(st.integers(0, 4)))
def test_fleiss_kappa_is_that_of_statsmodels(rows):
    counts = [[row.count(category) for category in range(5)] for row in rows]
    assert fleiss_kappa(counts, free=True) == pytest.approx(library_fleiss(counts, method="rand"), abs=1e-9)
    if len(set(pairable(rows))) > 1:
        assert fleiss_kappa(counts) == pytest.approx(library_fleiss(counts), abs=1e-9)
    else:
        assert fleiss_kappa(counts) is None


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=1, max_size=30))
def test_every_kappa_of_two_markers_is_that_of_statsmodels(pairs):
    table = table_of(pairs, 4)
    for weight, name in WEIGHTS:
        ours = weighted_kappa(table, weight)
        if len({mark for pair in pairs for mark in pair}) == 1:
            assert ours is None
        else:
            theirs = cohens_kappa(np.array(table, dtype=float), wt=name, return_results=False)
            assert ours == pytest.approx(theirs, abs=1e-9)


@given(plates(MARK), st.sampled_from(LEVELS))
def test_alpha_with_gaps_at_every_level_is_that_of_krippendorff(rows, level):
    # The library refuses where nothing can disagree; there we give no figure.
    if len(set(pairable(rows))) < 2:
        assert alpha(rows, level) is None
    else:
        assert alpha(rows, level) == pytest.approx(library_alpha(rows, level), abs=1e-9)


@pytest.mark.parametrize("rows", [[[3], [4]], [[2, None], [None, 4]], [[None, None]], []])
def test_one_marker_alone_has_no_alpha(rows):
    assert alpha(rows) is None


@given(plates(st.integers(0, 10), least=2))
def test_means_of_squares_are_those_of_statsmodels(rows):
    ours, (between, by_marker, rest) = squares(rows), anova(rows)
    assert (ours.between, ours.by_marker, ours.rest) == pytest.approx((between, by_marker, rest), abs=1e-6)


def anova(rows):
    """Means of squares of plates, markers and rest: analysis of variance of two ways, one mark a cell."""
    cells = [(mark, f"p{p}", f"m{m}") for p, row in enumerate(rows) for m, mark in enumerate(row)]
    fit = ols("mark ~ C(plate) + C(marker)", pd.DataFrame(cells, columns=["mark", "plate", "marker"])).fit()
    design = fit.model.exog
    assert np.linalg.matrix_rank(design) == design.shape[1]
    with np.errstate(all="ignore"):  # where all marks are equal the library divides nought by nought for F
        return anova_lm(fit)["mean_sq"].tolist()


def test_the_six_correlations_from_the_squares_of_statsmodels():
    # The formulas of Shrout and Fleiss, written out once more with the squares of the library; the figures
    # .17 .29 .71 .44 .62 .91 are those of their paper (from memory; check-values 10.1).
    between, by_marker, rest = anova(SHROUT)
    n, k = 6, 4
    within = (by_marker * (k - 1) + rest * (n - 1) * (k - 1)) / (n * (k - 1))
    one = (between - within) / (between + (k - 1) * within)
    two = (between - rest) / (between + (k - 1) * rest + k * (by_marker - rest) / n)
    three = (between - rest) / (between + (k - 1) * rest)
    found = intraclass(SHROUT)
    assert (found.one_way, found.absolute, found.consistent) == pytest.approx((one, two, three))
    assert (one, two, three) == pytest.approx((0.17, 0.29, 0.71), abs=0.005)
    means = (found.mean_one_way, found.mean_absolute, found.mean_consistent)
    assert means == pytest.approx([k * r / (1 + (k - 1) * r) for r in (one, two, three)])
    assert means == pytest.approx((0.44, 0.62, 0.91), abs=0.005)


def test_two_plates_by_two_markers_still_have_figures():
    # By hand: plates 1.5 and 3.5, markers 2 and 3; squares 4, 1 and 0.
    found = squares([[1, 2], [3, 4]])
    assert (found.between, found.by_marker, found.rest) == pytest.approx((4, 1, 0))
    assert components([[1, 2], [3, 4]]).dependability(1) == pytest.approx(0.8)


def test_a_figure_a_hundredth_off_is_seen():
    assert alpha(SHROUT) + 0.01 != pytest.approx(library_alpha(SHROUT, "interval"), abs=1e-9)
    assert linear(0, 2) != quadratic(0, 2)
    assert alpha(SHROUT, "ordinal") != pytest.approx(library_alpha(SHROUT, "interval"), abs=1e-3)
