"""A sample holds what must be seen, covers assessors and bands, and can be drawn again."""

import pytest

from assessments.verification.sampling import Candidate, drawn

STARTS = (0, 40_000, 60_000, 75_000)
BANDS = ("not passed", "pass", "merit", "distinction")


def candidate(code, points, assessor="Solveig"):
    band = [name for name, start in zip(BANDS, STARTS, strict=True) if points * 1000 >= start][-1]
    return Candidate(code, assessor, band, points * 1000, BANDS[0], STARTS)


def codes(found):
    return [each.code for each in found]


def test_every_fail_and_every_borderline_is_in():
    found = drawn([candidate("A", 38), candidate("B", 61), candidate("C", 90), candidate("D", 42)], "s")
    assert codes(found) == ["A", "B", "C", "D"]
    assert [each.why for each in found] == [
        "not passed: not passed",
        "within 2 points of a band",
        "drawn: distinction, Solveig",
        "within 2 points of a band",
    ]


def test_one_of_each_assessor_and_band_is_drawn_and_no_more():
    many = [candidate(f"S{number:02d}", 68) for number in range(20)]
    many += [candidate(f"T{number:02d}", 68, "Tobias") for number in range(20)]
    assert [each.why for each in drawn(many, "s")] == ["drawn: merit, Solveig", "drawn: merit, Tobias"]


@pytest.mark.parametrize("seed", ["20270308", "another", ""])
def test_the_same_seed_draws_the_same_names_in_any_order(seed):
    many = [candidate(f"S{number:02d}", 68) for number in range(20)]
    assert drawn(many, seed) == drawn(list(reversed(many)), seed)


def test_another_seed_may_draw_other_names():
    many = [candidate(f"S{number:02d}", 68) for number in range(20)]
    assert len({tuple(codes(drawn(many, str(seed)))) for seed in range(20)}) > 1


def test_a_scheme_without_points_is_drawn_by_band():
    met = Candidate("A", "Odile", "competent", None, "not yet competent", (0, 0))
    assert codes(drawn([met], "s")) == ["A"]
