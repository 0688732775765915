"""From marks to a result, by the three schemes of the college and by changed ones."""

from fractions import Fraction

import pytest

from assessments.schemes.card import Targets
from assessments.schemes.points import reckon
from tests.builders.schemes import QUICHE, card, college_scheme, scheme_json

#: The college's own worked examples: marks, portion, temperature, minutes late, before cap, total, band.
HUNDRED = [
    ([2, 1, [3, 2, 2, 1], 7, 6, 8], 133, 47, 4, 61, 39, "not passed"),
    ([3, 2, [3, 3, 2, 2], 8, 8, 7], 140, 47, 0, 83, 83, "distinction"),
    ([2, 2, [2, 2, 2, 2], 7, 7, 7], 128, 41, 22, 43, 43, "pass"),
]


def hundred_card(marks=(2, 2, [2, 2, 2, 2], 7, 7, 7), grams=140, celsius=47, late=0, **more):
    organisation, hygiene, technique, appearance, texture, flavour = marks
    given = dict(
        organisation=organisation,
        hygiene=hygiene,
        appearance=appearance,
        texture=texture,
        flavour=flavour,
        portion_weight=grams,
        food_temperature=celsius,
        timing=165 + late,
    )
    return card(by_technique={"technique": technique}, **{**given, **more})


@pytest.mark.parametrize("marks, grams, celsius, late, before, total, band", HUNDRED)
def test_the_worked_examples_of_one_hundred_points_come_out_exactly(
    marks, grams, celsius, late, before, total, band
):
    outcome = reckon(college_scheme("hundred_points"), hundred_card(marks, grams, celsius, late))
    assert outcome.before_cap == before * 1000
    assert outcome.milli_total == total * 1000
    assert outcome.band == band
    assert outcome.complete


def test_every_line_of_the_arithmetic_is_shown_and_adds_up():
    outcome = reckon(college_scheme("hundred_points"), hundred_card(*HUNDRED[0][:4]))
    earned = sum(line.milli for line in outcome.lines if line.kind == "criterion")
    assert earned == 61_000
    assert [line.figure for line in outcome.lines if line.kind == "part"] == [
        "7.5 of 7.5",
        "5 of 7.5",
        "5 of 7.5",
        "2.5 of 7.5",
    ]
    words = {line.code: line.words for line in outcome.lines}
    assert words["portion_weight"] == "Portion weight: 133 g for 140 g, −5 %, within 5 %: full"
    assert words["timing"] == "Timing: 4 started minutes late, 5 less 4 times 2, not below 0"
    assert words["hygiene_cap"] == "Hygiene below the standard: held at 39"
    assert outcome.lines[-1].words == "Total: not passed"
    assert outcome.lines[-1].figure == "39 of 100"


def test_more_than_fifteen_minutes_late_takes_the_product_and_leaves_the_rest():
    scheme = college_scheme("hundred_points")
    just, over = (reckon(scheme, hundred_card(late=late)) for late in (15, Fraction(15) + Fraction(1, 60)))
    assert "presented late" not in just.remarks
    assert over.remarks == ("presented late",)
    assert just.milli_total - over.milli_total == 21_000


def test_a_core_that_was_not_reached_takes_the_product_and_says_do_not_taste():
    scheme = college_scheme("hundred_points")
    targets = Targets(140_000, 8, 450, 500, core_decicelsius=750)
    reached = reckon(scheme, hundred_card(core_not_reached=75, targets=targets))
    below = reckon(scheme, hundred_card(core_not_reached=69, targets=targets))
    unknown = reckon(scheme, hundred_card(targets=targets))
    assert reached.milli_total == 71_000 and reached.remarks == ()
    assert below.milli_total == 50_000 and below.remarks == ("do not taste",)
    assert unknown.missing == ("Core temperature of the food",) and unknown.milli_total is None


def test_an_unfinished_card_says_what_is_missing_and_counts_what_was_given():
    outcome = reckon(
        college_scheme("hundred_points"),
        card(
            organisation=2,
            hygiene=3,
            texture=5,
            portion_weight=133,
            by_technique={"technique": [2, 1, None, None]},
        ),
    )
    assert outcome.milli_total is None and outcome.band is None
    assert "Technical skill: Technique 3" in outcome.missing
    assert "Timing: when the plate was presented" in outcome.missing
    assert outcome.so_far == 10_000 + 15_000 + 7_500 + 5_000 + 3_000
    assert outcome.so_far_of == 15_000 + 15_000 + 15_000 + 10_000 + 3_000
    assert outcome.lines[-1].figure == "40.5 of 58"


def test_a_dish_without_a_serving_range_gives_full_points_for_temperature():
    targets = Targets(portion_milligrams=140_000)
    outcome = reckon(college_scheme("hundred_points"), hundred_card(food_temperature=None, targets=targets))
    assert outcome.milli_total == 71_000


def test_the_printed_order_decides_whether_a_cap_or_the_rounding_comes_first():
    content = scheme_json("hundred_points")
    content["rules"][2]["cap_milli_points"] = 38_500
    marks = [2, 1, [3, 2, 2, 1], 7, 6, 8]
    order = content.pop("order")
    assert order[-2:] == ["rounding", "caps"]
    last = reckon(college_scheme("hundred_points", rules=content["rules"]), hundred_card(marks))
    first = reckon(
        college_scheme("hundred_points", rules=content["rules"], order=[*order[:-2], "caps", "rounding"]),
        hundred_card(marks),
    )
    assert (last.milli_total, first.milli_total) == (38_500, 39_000)


def test_a_half_is_rounded_up_once_and_thirds_are_not_rounded_on_the_way():
    assert (
        reckon(college_scheme("hundred_points"), hundred_card(grams=128, celsius=41, late=22)).milli_total
        == 43_000
    )
    judged = {"process": [2, 2, 3], "presentation": [2, 2, 2], "taste": [3, 2, 2]}
    outcome = reckon(
        college_scheme("judges_and_measures"),
        card(judged=judged, weight=140, count=8, waste=150, window=170),
    )
    assert [line.milli for line in outcome.lines if line.code in judged] == [
        Fraction(140_000, 9),
        10_000,
        Fraction(175_000, 9),
    ]
    assert outcome.milli_total == 70_000


def test_the_worked_example_of_three_judges_comes_out_exactly():
    outcome = reckon(
        college_scheme("judges_and_measures"),
        card(
            judged={"process": [2, 2, 3], "presentation": [2, 2, 2], "taste": [3, 2, 2]},
            weight=140,
            count=8,
            waste=150,
            window=170,
        ),
    )
    assert (outcome.milli_total, outcome.band) == (70_000, "reached the line")


def test_judges_two_steps_apart_mark_again_and_no_mean_is_taken():
    outcome = reckon(
        college_scheme("judges_and_measures"),
        card(
            judged={"process": [1, 2, 3], "presentation": [2, 2, 2], "taste": [3, 2, 2]},
            weight=140,
            count=8,
            waste=150,
            window=165,
        ),
    )
    assert outcome.milli_total is None
    assert outcome.again == (
        "Working method: 1, 2, 3 are 2 steps apart, more than 1 step; "
        "talk it over, then every judge marks again",
    )
    assert not any(line.code == "process" and line.kind == "criterion" for line in outcome.lines)


def test_two_judges_of_three_are_not_enough():
    outcome = reckon(college_scheme("judges_and_measures"), card(judged={"process": [2, 2]}))
    assert "Working method: 1 judge of 3" in outcome.missing


MET = dict(workplace=1, food_safety=1, knives_machines=1, product=1, time=1, questions=1)


@pytest.mark.parametrize("shown, result", [([1, 1, 0], "not yet competent"), ([1, 1, 1], "competent")])
def test_the_worked_examples_of_competence_come_out_exactly(shown, result):
    outcome = reckon(college_scheme("competence"), card(by_technique={"techniques": shown}, **MET))
    assert (outcome.band, outcome.milli_total) == (result, None)
    assert outcome.complete


def test_competence_waits_for_every_line():
    outcome = reckon(
        college_scheme("competence"), card(by_technique={"techniques": [1]}, **{**MET, "product": None})
    )
    assert outcome.band is None
    assert outcome.missing == ("Product servable at the stated portion",)


def test_a_sitting_stopped_for_safety_is_over_with_what_was_given():
    outcome = reckon(college_scheme("competence"), card(workplace=1, critical_stop=1))
    assert (outcome.band, outcome.remarks) == ("not yet competent", ("stopped for safety",))
    assert outcome.missing == ()


def test_a_shut_gate_leaves_the_points_and_takes_the_pass():
    gate = {
        "code": "hygiene_gate",
        "kind": "gate",
        "when": "hygiene_mark_at_most",
        "at_most": 1,
        "remark": "hygiene below the standard",
    }
    scheme = college_scheme("hundred_points", rules=[gate])
    outcome = reckon(scheme, hundred_card([3, 1, [3, 3, 3, 3], 9, 9, 9]))
    assert (outcome.milli_total, outcome.band) == (87_000, "not passed")


@pytest.mark.parametrize(
    "grams, figure",
    [
        (140, "3 of 3"),
        (147, "3 of 3"),
        (147.1, "1.5 of 3"),
        (126, "1.5 of 3"),
        (125.9, "0 of 3"),
        (154.1, "0 of 3"),
    ],
)
def test_a_portion_weight_earns_by_its_tolerance_on_both_sides(grams, figure):
    outcome = reckon(college_scheme("hundred_points"), card(portion_weight=grams, targets=QUICHE))
    assert next(line.figure for line in outcome.lines if line.code == "portion_weight") == figure


@pytest.mark.parametrize(
    "elapsed, figure", [(165, "10 of 10"), (160, "10 of 10"), (159.9, "0 of 10"), (165.1, "0 of 10")]
)
def test_a_serving_window_closes_at_the_deadline(elapsed, figure):
    outcome = reckon(college_scheme("judges_and_measures"), card(window=elapsed))
    assert next(line.figure for line in outcome.lines if line.code == "window") == figure
