"""A scheme that cannot be used is refused in words; each row is a planted fault."""

import pytest

from assessments.schemes.checks import complaints
from assessments.schemes.content import UnreadableScheme, read_scheme
from tests.builders.schemes import SCHEME_CODES, college_scheme, scheme_json

GATE = {"code": "gate", "kind": "gate", "when": "hygiene_mark_at_most", "at_most": 1, "remark": "hygiene"}


@pytest.mark.parametrize("code", SCHEME_CODES)
def test_the_schemes_of_the_college_can_be_used(code):
    assert complaints(college_scheme(code)) == ()


def with_rule(content, **changed):
    content["rules"] = [*content["rules"], {**GATE, **changed}]


def change(place, **values):
    def plant(content):
        target = content
        for key in place:
            target = target[key]
        target.update(values)

    return plant


FAULTS = [
    (change(["criteria", 0], milli_points=10_000), "add up to 95 points, the scheme says 100"),
    (change(["criteria", 2], technique_count=5), "5 techniques of 7.5 points are 37.5, not 30"),
    (change(["criteria", 0], kind="guess"), "“guess” is no kind of criterion"),
    (change(["criteria", 1], code="organisation"), "Two criteria are called “organisation”"),
    (change(["criteria", 3], scale_maximum=9), "the ladder goes from 0 to 9"),
    (change(["criteria", 0, "ladder", 1], text=" "), "has no descriptor"),
    (change(["criteria", 6], tolerance=[]), "needs tolerance steps"),
    (
        change(
            ["criteria", 6],
            tolerance=[
                {"within_per_mille": 100, "share_per_mille": 1000},
                {"within_per_mille": 50, "share_per_mille": 500},
            ],
        ),
        "a wider tolerance step must earn less",
    ),
    (change(["rules", 2], when="cleanliness_mark_at_most"), "there is no criterion “cleanliness”"),
    (change(["rules", 2], when="moon_is_full"), "nobody knows when “moon_is_full” is"),
    (change(["rules", 2], at_most=3), "say at which mark of the scale it acts"),
    (change(["rules", 2], kind="wish"), "“wish” is no kind of rule"),
    (change(["rules", 2], cap_milli_points=0), "says at how many points it holds"),
    (change(["rules", 0], part="garnish"), "no criterion is part of “garnish”"),
    (change(["rules", 0], remark=""), "it needs a remark"),
    (
        change([], order=["criteria", "tolerances", "timing", "sum", "zero_parts", "rounding", "caps"]),
        "sums before",
    ),
    (
        change([], order=["criteria", "tolerances", "timing", "zero_parts", "rounding", "sum", "caps"]),
        "rounds before",
    ),
    (
        change([], order=["criteria", "tolerances", "timing", "zero_parts", "caps", "sum", "rounding"]),
        "caps before",
    ),
    (
        change([], order=["criteria", "tolerances", "zero_parts", "sum", "rounding", "caps"]),
        "no step that reckons it",
    ),
    (change([], order=["criteria", "magic", "tolerances", "timing", "zero_parts", "sum", "caps"]), "“magic”"),
    (change([], result_bands=[{"name": "pass", "from_milli_points": 40_000}]), "at least two results"),
    (change(["result_bands", 1], from_milli_points=70_000), "start at 0 and go up"),
    (lambda content: with_rule(content, at_most=0), "Let both act at the same mark"),
]


@pytest.mark.parametrize("plant, words", FAULTS)
def test_a_planted_fault_is_named(plant, words):
    content = scheme_json("hundred_points")
    plant(content)
    assert any(words in complaint for complaint in complaints(read_scheme(content))), complaints(
        read_scheme(content)
    )


def test_a_gate_that_takes_the_pass_and_a_cap_that_gives_it_disagree():
    content = scheme_json("hundred_points")
    with_rule(content)
    assert complaints(read_scheme(content)) == ()
    content["rules"][2]["cap_milli_points"] = 45_000
    (complaint,) = complaints(read_scheme(content))
    assert "holds at 45, which passes from 40" in complaint


def test_a_critical_rule_needs_a_critical_line():
    content = scheme_json("competence")
    for criterion in content["criteria"]:
        criterion.pop("critical", None)
    assert "no line of the scheme is marked as critical" in complaints(read_scheme(content))[0]


def test_a_window_needs_its_minutes():
    content = scheme_json("judges_and_measures")
    content["criteria"][-1]["target"] = "window"
    assert any("window needs its minutes" in each for each in complaints(read_scheme(content)))


@pytest.mark.parametrize(
    "change",
    [
        {"shape": 2},
        {"surprise": 1},
        {"criteria": [{"code": "a"}]},
        {"criteria": [{"code": "a", "name": "A", "kind": "measured", "tolerance": [{"share_per_mille": 1}]}]},
    ],
)
def test_content_of_another_shape_is_not_read(change):
    with pytest.raises(UnreadableScheme):
        read_scheme({**scheme_json("hundred_points"), **change})
