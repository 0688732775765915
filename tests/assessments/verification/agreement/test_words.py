"""Figures of agreement in words: signs, dashes, too few."""

from datetime import date

from assessments.verification.agreement.figures import MarkerFigures, figures
from assessments.verification.agreement.plates import TOTAL, Line
from assessments.verification.agreement.words import EXPLAINED, line_said, marker_said


def said(*plates, code="appearance", steps=11, step=1):
    return line_said(figures(Line(code, "Appearance", step, steps, plates)))


def test_a_line_with_plates_enough_says_every_figure():
    found = said(*[(8, 7), (7, 7), (6, 5), (9, 8), (5, 5)] * 2)
    assert (found.marks, found.near) == ("10 marks, 4 the same", "10 of 10, 100\N{NO-BREAK SPACE}%")
    assert dict(found.figures)["First less second"] == "+0.6 (−0.4 to +1.6)"
    assert [head for head, _ in found.figures] == [each.head for each in EXPLAINED]


def test_too_few_and_nothing_to_disagree_about_are_said_apart():
    assert {words for _, words in said((8, 7)).figures} == {"too few"}
    assert dict(said(*[(2, 2)] * 12).figures)["Weighted kappa"] == "–"


def test_the_total_is_near_within_five_points():
    assert said((60, 64), (60, 66), code=TOTAL, steps=None, step=5).near == "1 of 2"


def test_every_figure_names_its_source():
    assert all(each.source.endswith(".") and each.says.endswith(".") for each in EXPLAINED)


def test_a_marker_leans_or_does_not():
    months = ((date(2027, 3, 1), 12, -1.26), (date(2027, 5, 1), 2, None))
    found = marker_said(MarkerFigures("Io", 14, -1.0, months))
    assert (found.points, found.unit) == ("−1", "point")
    assert found.words == "14 plates: 1 point less than the others on average."
    assert found.months == (
        "March 2027: 12 plates, 1.3 points less than the others on average",
        "May 2027: 2 plates",
    )
    assert marker_said(MarkerFigures("Io", 3, None, ())).words == "3 plates: too few plates for a figure."
    assert "neither more nor less" in marker_said(MarkerFigures("Io", 30, 0.01, ())).words
