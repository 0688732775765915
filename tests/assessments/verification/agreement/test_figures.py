"""Counts always, figures from ten plates on; each marker beside the others over the months."""

from datetime import date

import pytest

from assessments.verification.agreement.figures import figures, markers
from assessments.verification.agreement.kappa import quadratic, table_of, weighted_kappa
from assessments.verification.agreement.plates import Beside, Line
from assessments.verification.agreement.reliability import intraclass

TEN = ((8, 7), (6, 6), (9, 8), (5, 5), (7, 7), (4, 6), (8, 8), (3, 4), (6, 5), (7, 7))
MARCH, MAY = date(2027, 3, 8), date(2027, 5, 3)


def line(*plates, step=1, steps=11):
    return Line("appearance", "Appearance", step, steps, plates)


def test_below_ten_plates_there_are_counts_only():
    found = figures(line(*TEN[:9]))
    assert (found.plates, found.same, found.near, found.enough) == (9, 4, 8, False)
    assert (found.apart, found.kappa, found.alpha, found.correlation, found.dependable) == (None,) * 5


def test_from_ten_on_every_figure_is_that_of_its_formula():
    found = figures(line(*TEN))
    assert found.enough
    assert found.apart.mean == 0
    assert found.kappa == weighted_kappa(table_of(TEN, 11), quadratic)
    assert found.correlation == intraclass(TEN).absolute
    assert found.correlation < found.dependable < 1


def test_a_plate_that_one_marker_left_open_counts_nowhere():
    assert figures(line(*TEN, (5, None))).plates == 10


def test_three_markers_have_no_first_and_second():
    found = figures(line(*[(a, b, a) for a, b in TEN]))
    assert found.apart is None and found.kappa is None
    assert found.alpha is not None and found.correlation is not None


def test_totals_have_no_ladder_and_a_step_of_their_own():
    found = figures(Line("total", "Total", 5, None, tuple((60 + n, 66 - n) for n in range(10))))
    assert found.kappa is None
    assert found.near == 5


def test_steps_given_to_all_alike_say_nothing():
    assert figures(line(*[(2, 2)] * 12)).kappa is None


def test_a_marker_leans_by_the_mean_over_the_months():
    rows = [Beside("Io", MARCH, 60, 57)] * 10 + [Beside("Io", MAY, 60, 61)] * 2 + [Beside("Ada", MAY, 50, 50)]
    ada, io = markers(rows)
    assert (ada.marker, ada.plates, ada.mean) == ("Ada", 1, None)
    assert io.mean == pytest.approx((30 - 2) / 12)
    assert io.months == ((date(2027, 3, 1), 10, 3), (date(2027, 5, 1), 2, None))
