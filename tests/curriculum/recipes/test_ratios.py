from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.foods.data import FoodData
from curriculum.foods.rounding import WORTH_NAMING
from curriculum.recipes.data import ComponentData, FinishedData, LineData, RecipeData
from curriculum.recipes.ratios import moved_ratios
from curriculum.recipes.scaling import scale
from curriculum.recipes.weighing import OF_THE_BOOK, Scales, weigh

F = Fraction
COARSE = Scales(bulk=5000, small=5000, no_fine=True)
FOODS = (
    FoodData("flour", "Flour", dough_part="flour"),
    FoodData("milk", "Milk", increment_milligrams=5000, dough_part="liquid"),
    FoodData("butter", "Butter", dough_part="fat"),
    FoodData(
        "yeast", "Yeast", scaling_class="leavening", increment_milligrams=500, rounding="nearest",
        dough_part="raising",
    ),
    FoodData(
        "gelatine", "Gelatine", scaling_class="gelling", increment_milligrams=100, rounding="nearest",
        dough_part="gel", gelatine_bloom=200,
    ),
    FoodData("cream", "Cream", increment_milligrams=5000, dough_part="fat"),
)  # fmt: skip


def dough(*lines, portions=16, basis="portions"):
    weighed = tuple(LineData(n, food, each) for n, (food, each) in enumerate(lines, start=1))
    component = ComponentData("A", "Dough", basis, weighed)
    return RecipeData("D", "Rolls", 1, "basic", portions, portions, 0, (component,), (), FOODS)


ROLLS = dough(("flour", 500_000), ("milk", 300_000), ("yeast", 15_000), ("butter", 50_000))


def moved(recipe, portions, benches=1, scales=OF_THE_BOOK):
    return {each.food: each for each in moved_ratios(recipe, scale(recipe, portions), benches, scales)}


def test_a_batch_that_the_scale_shows_exactly_moves_nothing():
    assert moved(ROLLS, 16, 4) == {}
    assert moved(ROLLS, 4) == {}


def test_yeast_at_a_quarter_batch_on_a_five_gram_scale_has_its_ways_out_with_figures():
    found = moved(ROLLS, 4, 4, COARSE)["yeast"]
    assert found.what == "raising agent to flour"
    assert (found.exact, found.issued) == (F(3, 100), F(4, 100)) and found.moved == F(1, 3)
    assert (found.pooled.benches, found.pooled.milligrams, found.pooled.moved) == (4, 15_000, 0)
    assert (found.finer.step, found.finer.milligrams) == (100, 3_800)
    assert found.premixed.carrier == "flour"


def test_each_way_out_keeps_the_ratio_it_says_it_keeps():
    found = moved(ROLLS, 3, 5, COARSE)
    assert set(found) >= {"yeast", "butter"}
    for each in found.values():
        for way in (each.pooled, each.premixed, each.finer):
            assert way is None or abs(way.moved) <= WORTH_NAMING
    mixed = found["yeast"].premixed
    one = F(mixed.milligrams, mixed.carrier_milligrams)
    assert abs(one / F(3, 100) - 1) <= WORTH_NAMING
    assert mixed.each == 100_000, "93.75 g of flour with 2.8 g of yeast, on a scale of 5 g"


def test_a_scale_that_is_used_already_is_no_finer_one():
    """11 g of yeast are exact on 0.5 g, but their 71 g of flour become 75 g on the 5 g of the bench scale."""
    recipe = dough(("flour", 71_000), ("yeast", 11_000))
    found = moved(recipe, 16, 1, Scales(bulk=5000, small=500, no_fine=True))["yeast"]
    assert found.milligrams == 11_000 and found.finer.step < 500


def test_pooling_does_not_help_where_all_benches_are_too_few():
    assert moved(ROLLS, 4, 2, COARSE)["yeast"].pooled is None
    assert moved(ROLLS, 4, 1, COARSE)["yeast"].pooled is None


def test_gel_is_a_ratio_to_the_whole_mass_to_be_set_and_not_to_its_own_component():
    base = ComponentData(
        "A", "Base", "portions", (LineData(1, "milk", 250_000), LineData(2, "gelatine", 8_000))
    )
    cream = ComponentData("B", "Cream", "portions", (LineData(1, "cream", 250_000),))
    recipe = replace(
        dough(("flour", 1)),
        portions_stated=8,
        components=(base, cream),
        finished=(FinishedData(("A", "B"), 500_000, 60_000),),
    )
    assert "gelatine" not in moved(recipe, 8, 1)
    coarse = moved(recipe, 1, 8, Scales(small=5000, no_fine=True))["gelatine"]
    assert coarse.exact == F(8, 508) and coarse.what == "gel to the mass to be set"


@pytest.mark.parametrize("rule", ["range", "vessel", "evaporating", "minimum_mass"])
def test_what_a_cue_a_pan_or_a_target_rules_is_not_judged_by_its_ratio(rule):
    lines = (LineData(1, "flour", 100_000), LineData(2, "butter", 3_000, scaling_class=rule))
    recipe = replace(ROLLS, components=(ComponentData("A", "Paste", "portions", lines),))
    assert moved(recipe, 16, 1, COARSE) == {}
    unruled = (lines[0], replace(lines[1], scaling_class=None))
    plain = replace(ROLLS, components=(ComponentData("A", "Paste", "portions", unruled),))
    assert "butter" in moved(plain, 16, 1, COARSE)


@given(st.integers(1, 400))
def test_exact_scaling_moves_no_ratio_whatever_the_portions(portions):
    lines = {line.food: line.exact_milligrams for line in scale(ROLLS, portions).lines}
    assert lines["yeast"] / lines["flour"] == F(3, 100) and lines["butter"] / lines["flour"] == F(1, 10)


def test_the_law_of_unmoved_ratios_catches_weights_rounded_before_they_are_scaled():
    exact = {line.food: line.exact_milligrams for line in scale(ROLLS, 3).lines}
    rounded = {food: weigh(each, ROLLS.food(food), COARSE).milligrams for food, each in exact.items()}
    assert F(rounded["yeast"], rounded["flour"]) != F(3, 100)


@given(st.integers(1, 60), st.integers(1, 12), st.sampled_from([OF_THE_BOOK, COARSE, Scales(fine=100)]))
def test_every_ratio_that_is_not_named_is_within_three_per_cent(portions, benches, scales):
    named = set(moved(ROLLS, portions, benches, scales))
    scaled = scale(ROLLS, portions)
    shown = {line.food: weigh(line.exact_milligrams, ROLLS.food(line.food), scales) for line in scaled.lines}
    for food in {"milk", "yeast", "butter"}:
        issued = F(shown[food].milligrams, shown["flour"].milligrams)
        off = issued / (shown[food].exact / shown["flour"].exact) - 1
        assert (abs(off) > WORTH_NAMING) == (food in named)
