"""Accepted figures laid on recipes, and what a requisition adds."""

import json

import pytest

from kitchen.stores.kits import kit_of_bench, plan_kits
from kitchen.stores.learning.figures import (
    Figure,
    allowances,
    allowed,
    components_with,
    foods_trimmed,
    kept,
    laid_on,
    over_issue_in,
    read,
    techniques_of,
    with_sources,
)
from kitchen.stores.needs import class_need
from tests.builders.kits import bench_batches
from tests.builders.recipes import college_recipe

DUSTING = Figure("over_issue", "soft_wheat_flour", "R01", 30_000, "learned from six lessons")
LEEK = Figure("usable", "leek", "", 600, "learned from three tests")


def kit_of(recipe, portions=8):
    return kit_of_bench(recipe, portions)


def weights(recipe, food):
    return [line.milligrams for line in kit_of(recipe).lines if line.food == food]


def test_accepted_over_issue_goes_in_the_place_of_the_recipes_own():
    quiche = college_recipe("R01")
    assert over_issue_in(quiche) == {"soft_wheat_flour": 20_000}
    before, after = (
        weights(quiche, "soft_wheat_flour"),
        weights(laid_on(quiche, [DUSTING]), "soft_wheat_flour"),
    )
    assert (before[-1], after[-1]) == (20_000, 30_000)
    assert before[:-1] == after[:-1]


def test_a_variant_takes_the_over_issue_of_the_ordinary_recipe_where_it_has_that_food():
    assert weights(laid_on(college_recipe("V2"), [DUSTING]), "soft_wheat_flour")[-1] == 30_000
    assert laid_on(college_recipe("V1"), [DUSTING]) == college_recipe("V1")


def test_the_variants_own_over_issue_goes_before_that_of_the_ordinary_recipe():
    own = Figure("over_issue", "soft_wheat_flour", "V2", 25_000, "")
    assert weights(laid_on(college_recipe("V2"), [own, DUSTING]), "soft_wheat_flour")[-1] == 25_000


def test_over_issue_of_nothing_takes_the_line_from_the_tray():
    quiche = college_recipe("R01")
    none = Figure("over_issue", "soft_wheat_flour", "R01", 0, "")
    assert len(weights(laid_on(quiche, [none]), "soft_wheat_flour")) == 1


def test_over_issue_of_another_recipe_changes_nothing():
    assert laid_on(college_recipe("R05"), [DUSTING]) == college_recipe("R05")


def test_over_issue_in_whole_pieces_is_not_learned():
    assert over_issue_in(college_recipe("R10")) == {}


def test_an_accepted_usable_share_changes_what_is_given_to_trim():
    quiche = college_recipe("R01")
    assert weights(quiche, "leek") == [400_000]
    assert weights(laid_on(quiche, [LEEK]), "leek") == [500_000]


def test_a_share_of_the_lines_own_stays():
    plaice = college_recipe("R12")
    potato = Figure("usable", "waxy_potato", "", 300, "")
    assert weights(laid_on(plaice, [potato]), "waxy_potato") == weights(plaice, "waxy_potato")


def test_the_line_of_the_kit_says_where_its_figure_was_learned():
    quiche = laid_on(college_recipe("R01"), [DUSTING, LEEK])
    (kit,) = with_sources([kit_of(quiche)], [quiche], [DUSTING, LEEK])
    notes = {(line.food, line.part): line.note for line in kit.lines}
    assert notes["soft_wheat_flour", "over_issue"] == "learned from six lessons"
    assert notes["leek", "recipe"] == "for 300 g prepared; usable 60 %, learned from three tests"
    assert notes["soft_wheat_flour", "recipe"] == ""


def test_without_accepted_figures_the_kits_are_left_as_they_are():
    kit = kit_of(college_recipe("R01"))
    assert with_sources([kit], [college_recipe("R01")], []) == (kit,)


def test_techniques_are_those_of_the_steps_that_work_the_food_as_it_is_handed_out():
    worked = techniques_of(college_recipe("R01"))
    assert "egg_in_shell" in worked and "egg_beaten" not in worked
    assert all(worked.values())


def test_components_that_take_the_food_too_are_named():
    assert components_with(college_recipe("R01"), "soft_wheat_flour") == ("Shortcrust paste",)


def needs(code="R01", benches=7):
    return {each.food: each for each in class_need(plan_kits(bench_batches([code] * benches, 8)))}


def test_of_several_techniques_the_largest_share_counts_and_not_their_sum():
    quiche = college_recipe("R01")
    codes = techniques_of(quiche)["unsalted_butter"]
    figures = [Figure("wastage", "unsalted_butter", code, 50 + n, "") for n, code in enumerate(codes)]
    assert allowances([quiche], figures)["unsalted_butter"].amount == 50 + len(codes) - 1 > 50


def test_the_food_and_its_technique_go_before_the_technique_and_both_before_the_food_alone():
    quiche = college_recipe("R01")
    code = techniques_of(quiche)["unsalted_butter"][0]
    food = Figure("wastage", "unsalted_butter", "", 200, "")
    technique = Figure("wastage", "", code, 100, "")
    both = Figure("wastage", "unsalted_butter", code, 30, "")
    assert allowances([quiche], [food])["unsalted_butter"] == food
    assert allowances([quiche], [food, technique])["unsalted_butter"] == technique
    assert allowances([quiche], [food, technique, both])["unsalted_butter"] == both


def test_over_several_recipes_of_a_class_the_largest_counts():
    figures = [Figure("wastage", "leek", "", 50, "")]
    assert set(allowances([college_recipe("R01"), college_recipe("V1")], figures)) == {"leek"}
    assert allowances([college_recipe("R01")], []) == {}


def test_an_allowance_is_added_once_for_the_class_and_rounded_up_once():
    seven = needs()
    assert allowed(seven["unsalted_butter"], Figure("wastage", "", "", 50, "")) == (
        -(-seven["unsalted_butter"].milligrams * 50 // 1_000_000) * 1000,
        None,
    )
    assert allowed(seven["unsalted_butter"], None) == (0, None)


def test_an_allowance_of_eggs_is_whole_eggs():
    eggs = needs()["egg_in_shell"]
    milligrams, pieces = allowed(eggs, Figure("wastage", "", "", 50, ""))
    assert pieces == -(-eggs.pooled_pieces * 50 // 1000) == 2
    assert milligrams == 2 * eggs.unit_milligrams


def test_what_kits_were_made_by_is_kept_as_json_and_read_back():
    assert read(json.loads(json.dumps(kept([DUSTING, LEEK])))) == (DUSTING, LEEK)
    with pytest.raises(TypeError):
        read([{"kind": "usable"}])


def test_foods_to_weigh_are_those_that_trimming_leaves_less_of():
    assert foods_trimmed(college_recipe("R01")) == ("leek",)
    assert "waxy_potato" not in foods_trimmed(college_recipe("R12"))
