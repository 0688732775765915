from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.recipes import classes
from curriculum.recipes.data import SCALING_CLASSES


@pytest.mark.parametrize(
    ("factor", "grams"),
    [(Fraction(1), 4), (Fraction(3, 2), 5), (Fraction(2), 6), (Fraction(3), 9), (Fraction(1, 2), 2)],
)
def test_seasoning_goes_up_slower_than_the_batch_and_down_with_it(factor, grams):
    assert classes.act("seasoning", Fraction(4), factor) == grams


@pytest.mark.parametrize("rule", ["linear", "leavening", "gelling", "piece", "evaporating", "range"])
@pytest.mark.parametrize("factor", [Fraction(1, 3), Fraction(7, 5), Fraction(9)])
def test_linear_classes_up_and_down_are_the_start(rule, factor):
    assert classes.act(rule, classes.act(rule, Fraction(123), factor), 1 / factor) == 123


def test_the_law_of_up_and_down_catches_a_class_that_is_not_linear():
    assert (
        classes.act("seasoning", classes.act("seasoning", Fraction(123), Fraction(2)), Fraction(1, 2)) != 123
    )


def test_gelatine_of_another_bloom_is_shown_by_both_rules():
    assert classes.gelatine(8_000, 200, 160) == (8_944, 10_000)
    assert classes.gelatine(8_000, 200, 200) == (8_000, 8_000)


@pytest.mark.parametrize("bloom", [100, 125, 160, 200, 250])
@pytest.mark.parametrize("other", [125, 160, 200, 250])
@pytest.mark.parametrize("milligrams", [3_333, 8_000, 12_500, 15_000])
def test_both_rules_give_the_nearest_milligram(milligrams, bloom, other):
    rooted, linear = classes.gelatine(milligrams, bloom, other)
    exact = Fraction(milligrams**2 * bloom, other)
    assert (rooted - Fraction(1, 2)) ** 2 <= exact <= (rooted + Fraction(1, 2)) ** 2
    assert abs(linear - Fraction(milligrams * bloom, other)) <= Fraction(1, 2)


@given(
    st.fractions(min_value=Fraction(1, 100), max_value=100),
    st.fractions(min_value=Fraction(1, 100), max_value=100),
)
def test_a_larger_batch_never_takes_less_of_anything(small, large):
    small, large = sorted((small, large))
    for rule in ("linear", "seasoning", "leavening", "gelling", "minimum_mass", "vessel", "range"):
        assert classes.act(rule, Fraction(100), small, 50, 20) <= classes.act(
            rule, Fraction(100), large, 50, 20
        )


def test_a_least_mass_is_kept_and_what_goes_back_is_not_scaled():
    assert classes.act("minimum_mass", Fraction(600), Fraction(1, 2), 500) == 500
    assert classes.act("minimum_mass", Fraction(600), Fraction(1, 2)) == 600
    assert classes.act("minimum_mass", Fraction(800), Fraction(2), 500, 495) == 1105


@pytest.mark.parametrize("rule", ["frying_fat", "vessel"])
def test_what_fills_a_pan_does_not_follow_the_batch(rule):
    assert classes.act(rule, Fraction(300), Fraction(4)) == 300
    assert classes.words(rule, Fraction(4), False)[0] == "By the pan, not by portions."


def test_a_batch_as_written_has_nothing_to_say_but_what_the_cue_and_the_target_decide():
    assert classes.words("seasoning", Fraction(1), False) == ("", False)
    assert classes.words("range", Fraction(1), False)[0] and classes.words("linear", Fraction(1), True)[0]


def test_where_the_trade_has_no_figure_a_person_decides():
    assert classes.words("leavening", Fraction(5), False)[1]
    assert not classes.words("leavening", Fraction(4), False)[1]
    assert classes.words("gelling", Fraction(2), False)[1]


def test_every_class_has_its_prose_its_example_and_whose_rule_it_is():
    assert set(classes.PROSE) == set(SCALING_CLASSES)
    for prose in classes.PROSE.values():
        assert prose.name and prose.rule.endswith(".") and prose.example.endswith(".") and prose.source


@pytest.mark.parametrize(
    ("rule", "before", "factor", "after"),
    [
        ("linear", 260, 2, 520),
        ("seasoning", 4, 2, 6),
        ("seasoning", 4, 3, 9),
        ("leavening", 15, 2, 30),
        ("gelling", 8, 2, 16),
        ("frying_fat", 1000, 3, 1000),
        ("evaporating", 500, 2, 1000),
        ("range", 230, 2, 460),
    ],
)
def test_the_examples_of_the_prose_are_what_the_class_does(rule, before, factor, after):
    assert classes.act(rule, Fraction(before), Fraction(factor)) == after
    assert f"{after:,}" in classes.PROSE[rule].example


def test_the_example_of_the_bath_is_what_the_class_does():
    assert classes.act("minimum_mass", Fraction(800), Fraction(2), 500, 495) == 1105
    assert "1,105 g" in classes.PROSE["minimum_mass"].example
