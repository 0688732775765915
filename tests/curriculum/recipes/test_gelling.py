from dataclasses import replace
from fractions import Fraction

from curriculum.recipes.gelling import choices
from tests.builders.recipes import college_food

GOLD = college_food("leaf_gelatine_gold")


def test_both_rules_are_shown_with_their_leaves():
    found = choices(8_000, GOLD, 160, 2_500)
    rooted, linear = found.rules
    assert (rooted.milligrams, linear.milligrams) == (8_944, 10_000)
    assert (rooted.leaves, linear.leaves) == (Fraction(8_944, 2_500), 4)


def test_the_bloom_of_the_recipe_needs_no_rule_and_a_leaf_of_unknown_weight_gives_no_leaves():
    found = choices(8_000, replace(GOLD, piece_weights=()))
    assert {rule.milligrams for rule in found.rules} == {8_000}
    assert found.bloom == found.other_bloom == 200
    assert found.leaf_milligrams is None and {rule.leaves for rule in found.rules} == {None}


def test_a_leaf_that_the_food_weighs_counts_where_none_is_said():
    found = choices(8_000, replace(GOLD, piece_weights=(("leaf", 2_000),)))
    assert {rule.leaves for rule in found.rules} == {4}


def test_a_gel_without_a_bloom_has_no_choice():
    assert choices(8_000, college_food("xanthan_gum"), 160) is None
