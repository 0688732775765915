"""Kits give each bench what it must be given, and the class no gram more.

The figures of the quiche and the éclairs are the college's own, reckoned by hand beside
its recipe book (no source outside); that a bench's pieces are rounded up once is common
practice, no source.
"""

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.kits import Batch, kit_of_bench, method_order, plan_kits
from kitchen.stores.needs import class_need
from tests.builders.kits import bench_batches, eclair_kits, needs_in_grams, quiche_kits
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_food, college_recipe

QUICHES = {
    "cornflour": 32,
    "double_cream_48": 1770,
    "egg_in_shell": 40,
    "fine_salt": 63,
    "gluten_free_flour_blend": 260,
    "leek": 3600,
    "mature_cheddar": 1080,
    "nutmeg": 2.7,
    "rice_flour": 20,
    "soft_wheat_flour": 2240,
    "unsalted_butter": 1440,
    "white_pepper_ground": 4.5,
    "whole_milk": 2000,
    "xanthan_gum": 2,
}
ECLAIRS = {
    "caster_sugar": 805,
    "cornflour": 280,
    "egg_in_shell": 77,
    "fine_salt": 21,
    "instant_coffee": 91,
    "plant_fat_block": 150,
    "soya_drink": 500,
    "strong_wheat_flour": 980,
    "unsalted_butter": 930,
    "vegetable_oil": 5,
    "white_fondant": 2100,
    "whole_milk": 3750,
}
#: One bench as stated: exact grams as issued, whole pieces as int.
ONE_BENCH = {
    "R01": {
        "soft_wheat_flour": 280.0,
        "unsalted_butter": 160.0,
        "leek": 400.0,
        "egg_in_shell": 5,
        "fine_salt": 7.0,
    },
    "R02": {"icing_sugar": 95.0, "double_cream_48": 230.0, "egg_in_shell": 8, "lemon": 4},
    "R05": {"vanilla_pod": 1, "rhubarb": 465.1, "egg_in_shell": 5, "orange": 1},
    "R08": {"caster_sugar": 420.0, "egg_in_shell": 7, "lemon": 1, "strawberries": 229.9},
    "R10": {"egg_in_shell": 10, "asparagus": 714.3, "fine_salt": 22.0},
    "R11": {"waxy_potato": 654.5, "chicken_leg": 4, "shallot": 82.4, "egg_in_shell": 1},
    "R12": {"plaice_whole": 2, "waxy_potato": 727.3, "spinach": 473.0},
    "V2": {"whole_milk": 400.0, "cornflour": 32.0, "mature_cheddar": 120.0},
}


def test_the_quiche_class_needs_nine_batches_of_everything():
    assert needs_in_grams(quiche_kits()) == QUICHES


def test_the_eclair_class_needs_seven_batches_of_everything():
    assert needs_in_grams(eclair_kits()) == ECLAIRS


def test_making_the_paste_ahead_moves_lines_and_not_the_need():
    assert needs_in_grams(quiche_kits(ahead_steps=())) == needs_in_grams(quiche_kits(ahead_steps=(1, 2)))


@pytest.mark.parametrize("code", sorted(ONE_BENCH))
def test_one_bench_is_given_what_its_recipe_needs(code):
    recipe = college_recipe(code)
    given_: dict[str, float] = {}
    for line in kit_of_bench(recipe, recipe.portions_stated).lines:
        amount = line.pieces if line.pieces is not None else round(float(line.exact) / 1000, 1)
        given_[line.food] = round(given_.get(line.food, 0) + amount, 1)
    assert {food: given_[food] for food in ONE_BENCH[code]} == ONE_BENCH[code]


def test_water_is_printed_from_the_tap_and_leaves_no_lot():
    kit = kit_of_bench(college_recipe("R03"), 12)
    water = [line for line in kit.lines if line.food == "water"]
    assert [line.note for line in water] == ["from the tap", "from the tap; 6 g held back"]
    assert all(line.stock_milligrams == 0 for line in water)
    assert "water" not in {need.food for need in class_need([kit])}


def test_over_issue_stands_on_the_tray_with_its_purpose():
    dusting = kit_of_bench(college_recipe("R01"), 8).lines[-1]
    assert (dusting.component, dusting.food, dusting.milligrams) == ("dusting", "soft_wheat_flour", 20_000)


def test_eggs_are_one_line_of_whole_pieces_that_says_what_becomes_of_them():
    eggs = next(line for line in kit_of_bench(college_recipe("R01"), 8).lines if line.pieces)
    assert (eggs.pieces, eggs.exact, eggs.contains_words) == (5, Fraction(43, 10), ("egg",))
    assert "200 g for Savoury custard" in eggs.note and "15 g for Seal" in eggs.note


def test_seventeen_benches_get_seventeen_times_the_salt_and_an_order_pools_the_eggs():
    needs = {need.food: need for need in class_need(plan_kits(bench_batches(["R01"] * 17, 8)))}
    assert needs["fine_salt"].milligrams == 119_000
    assert needs["soft_wheat_flour"].milligrams == 4_760_000
    assert needs["leek"].milligrams == 6_800_000
    assert (needs["egg_in_shell"].pieces, needs["egg_in_shell"].pooled_pieces) == (85, 74)


def test_seven_benches_of_eclairs_pool_to_seventy_three_eggs():
    needs = {need.food: need for need in class_need(plan_kits(bench_batches(["R03"] * 7, 12)))}
    assert (needs["egg_in_shell"].pieces, needs["egg_in_shell"].pooled_pieces) == (77, 73)


def test_five_benches_of_turned_potatoes_need_3273_g_exactly_and_the_rounding_is_stated():
    need = {n.food: n for n in class_need(plan_kits(bench_batches(["R11"] * 5, 4)))}["waxy_potato"]
    assert round(need.exact_milligrams / 1000) == 3273
    assert need.milligrams == 5 * 655_000
    assert need.exact_milligrams + need.allowance_milligrams == need.milligrams


def test_a_quiche_tray_is_in_method_order():
    assert method_order(college_recipe("R01")) == ("A", "B", "D", "C", "X")


def test_paste_made_ahead_leaves_the_bench_and_is_never_mixed_between_recipes():
    kits = quiche_kits()
    ahead = [kit for kit in kits if kit.kind == "ahead"]
    assert [(kit.recipe, kit.batches) for kit in ahead] == [("R01", 7), ("V1", 1), ("V2", 1)]
    assert all(
        "Shortcrust" not in line.component for kit in kits if kit.kind == "bench" for line in kit.lines
    )
    butter = next(line for line in ahead[0].lines if line.food == "unsalted_butter")
    assert butter.milligrams == 7 * 130_000


def test_a_kit_whose_label_nobody_has_read_says_so():
    kits = {kit.label: kit for kit in quiche_kits()}
    assert "No label read: Gluten-free flour blend" in kits["6"].blocked_why
    assert kits["1"].blocked_why == ""


def test_what_the_stores_trim_takes_more_out_of_the_lot_than_the_bench_is_given():
    recipe = college_recipe("R01")
    leek = next(line for line in recipe.components[1].lines if line.food == "leek")
    trimmed = replace(
        recipe,
        components=tuple(
            replace(c, lines=tuple(replace(ln, issued="prepared") if ln is leek else ln for ln in c.lines))
            for c in recipe.components
        ),
    )
    line = next(line for line in kit_of_bench(trimmed, 8).lines if line.food == "leek")
    assert (line.milligrams, line.stock_milligrams) == (300_000, 400_000)


@given(st.sampled_from(RECIPE_CODES + VARIANT_CODES), st.integers(1, 40), st.integers(1, 12))
def test_what_is_issued_is_what_is_needed_and_a_stated_allowance_never_less(code, portions, benches):
    kits = plan_kits(bench_batches([code] * benches, portions))
    for need in class_need(kits):
        food = college_food(need.food)
        assert need.exact_milligrams + need.allowance_milligrams == need.milligrams
        if food.rounding == "up":
            assert need.allowance_milligrams >= 0
        if need.pieces is not None:
            assert need.pooled_pieces <= need.pieces


@given(st.sampled_from(RECIPE_CODES), st.integers(1, 4))
def test_the_need_is_the_same_whichever_steps_are_done_ahead(code, steps):
    recipe = college_recipe(code)
    batches = [Batch("bench", str(n), recipe, recipe.portions_stated, n) for n in range(1, 4)]
    plain, ahead = (class_need(plan_kits(batches, range(1, last))) for last in (1, steps + 1))
    weights = [[(n.food, n.exact_milligrams) for n in needs if n.pieces is None] for needs in (plain, ahead)]
    assert weights[0] == weights[1]


def test_a_planted_kit_that_forgets_a_line_is_caught_by_the_law():
    kits = quiche_kits()
    robbed = (replace(kits[0], lines=kits[0].lines[1:]), *kits[1:])
    assert needs_in_grams(robbed) != QUICHES


def test_the_fixture_of_every_recipe_can_be_made_into_a_kit():
    folder = Path(__file__).resolve().parents[3] / "fixtures" / "recipes"
    codes = {json.loads(path.read_text(encoding="utf-8"))["code"] for path in folder.glob("*.json")}
    assert codes == {*RECIPE_CODES, *VARIANT_CODES}
    assert all(kit_of_bench(college_recipe(code), 4).lines for code in codes)
