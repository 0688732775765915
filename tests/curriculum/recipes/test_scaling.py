from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.errors import RuleBroken
from curriculum.foods.rounding import whole_pieces
from curriculum.recipes import scaling
from curriculum.recipes.data import ComponentData, FoodData, LineData, RecipeData
from curriculum.recipes.scaling import scale
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe


def _line(scaled, component, food):
    return next(line for line in scaled.lines if (line.component, line.food) == (component, food))


# The factor of a component


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_the_stated_portions_are_the_recipe_itself(code):
    recipe = college_recipe(code)
    scaled = scale(recipe, recipe.portions_stated)
    written = [line.milligrams for component in recipe.components for line in component.lines]
    assert [line.exact_milligrams for line in scaled.lines] == written
    assert not [line for line in scaled.lines if line.person_decides]


def test_a_component_by_portions_goes_by_portions():
    scaled = scale(college_recipe("R02"), 4)
    assert _line(scaled, "C", "creme_fraiche_30").exact_milligrams == 80_000


def test_a_component_in_a_tin_takes_whole_tins_and_says_so():
    scaled = scale(college_recipe("R01"), 12)
    assert [tin.count for tin in scaled.tins] == [2]
    assert _line(scaled, "A", "soft_wheat_flour").exact_milligrams == 520_000
    assert scaled.words == ("Tins are filled whole: 12 portions need 2, which make 16.",)


def test_half_the_portions_of_one_tin_are_still_one_tin():
    scaled = scale(college_recipe("R01"), 4)
    assert _line(scaled, "C", "whole_milk").exact_milligrams == 200_000


def test_one_change_of_tin_gives_the_right_paste_and_the_right_filling():
    recipe = college_recipe("R01")
    scaled = scale(recipe, 8, (replace(recipe.tins[0], diameter_mm=200),))
    paste = next(each for each in scaled.components if each.code == "A")
    custard = next(each for each in scaled.components if each.code == "C")
    assert paste.factor == Fraction(3, 4)
    assert paste.exact_milligrams == Fraction(455_000 * 3, 4)
    assert custard.factor == Fraction(194, 234) ** 2
    assert "inside the paste" in custard.words and "24 cm to round tin of 20 cm" in custard.words


def test_over_issue_and_what_fills_a_pan_do_not_follow_portions():
    assert _line(scale(college_recipe("R01"), 16), "X", "soft_wheat_flour").exact_milligrams == 20_000
    assert _line(scale(college_recipe("R12"), 8), "C", "fish_stock").exact_milligrams == 300_000
    assert _line(scale(college_recipe("R10"), 8), "B", "fine_salt").exact_milligrams == 20_000


def test_a_recipe_of_one_tin_takes_its_seal_by_that_tin():
    assert _line(scale(college_recipe("R01"), 16), "D", "egg_beaten").exact_milligrams == 30_000


def test_a_tart_stated_for_eight_may_be_cut_for_ten():
    recipe = replace(college_recipe("R02"), may_be_cut_for=(10,))
    assert scale(recipe, 10).factor == 1
    assert scale(recipe, 12).factor == Fraction(3, 2)
    assert [tin.count for tin in scale(recipe, 20).tins] == [2]
    assert scale(recipe, 40).factor == 5


# The class of a line


def test_salt_of_a_paste_is_linear_and_salt_of_its_custard_is_seasoning():
    scaled = scale(college_recipe("R01"), 16)
    assert _line(scaled, "A", "fine_salt").exact_milligrams == 6_000
    salt = _line(scaled, "C", "fine_salt")
    assert salt.exact_milligrams == 6_000 and salt.rule == "seasoning" and "taste" in salt.words


def test_raising_agent_above_four_batches_is_left_to_a_person():
    scaled = scale(college_recipe("R06"), 80)
    assert _line(scaled, "A", "fresh_yeast").person_decides
    assert not _line(scale(college_recipe("R06"), 64), "A", "fresh_yeast").person_decides


def test_a_bath_of_chocolate_keeps_what_it_needs_to_work():
    double = _line(
        scale(college_recipe("R09"), 2 * college_recipe("R09").portions_stated), "A", "dark_couverture_62"
    )
    assert double.exact_milligrams == 305_000 * 2 + 495_000
    tiny = _line(scale(college_recipe("R09"), 1), "A", "dark_couverture_62")
    assert tiny.exact_milligrams > 500_000


def test_a_range_keeps_its_width_and_the_cue_decides():
    egg = _line(scale(college_recipe("R03"), 24), "A", "egg_beaten")
    assert (egg.least_milligrams, egg.most_milligrams) == (460_000, 520_000)
    assert "cue" in egg.words


def test_a_held_back_part_follows_its_line():
    water = _line(scale(college_recipe("R01"), 16), "A", "water")
    assert water.held_back_milligrams == 31_000


def test_a_held_back_part_of_a_seasoning_follows_what_its_class_makes_of_the_line():
    """4 g of salt doubled is 6 g; of the 1 g held back 1.5 g, still a quarter of it."""
    recipe = college_recipe("R01")
    custard = next(each for each in recipe.components if each.code == "C")
    lines = tuple(
        replace(line, held_back_milligrams=1_000) if line.food == "fine_salt" else line
        for line in custard.lines
    )
    parts = tuple(replace(each, lines=lines) if each.code == "C" else each for each in recipe.components)
    salt = _line(scale(replace(recipe, components=parts), 16), "C", "fine_salt")
    assert (salt.exact_milligrams, salt.held_back_milligrams) == (6_000, 1_500)


def test_what_is_weighed_as_bought_and_prepared_by_the_stores_is_given_with_its_share():
    """1 kg of leek as bought at 75 % is 750 g on the tray."""
    line = LineData(1, "leek", 1_000_000, weight_is="as_bought", issued="prepared", yield_per_mille=750)
    recipe = RecipeData(
        "L", "Leek", 1, "basic", 4, 4, 0, (ComponentData("A", "Leek", "portions", (line,)),), (),
        (FoodData("leek", "Leek"),),
    )  # fmt: skip
    (given,) = scale(recipe, 8).lines
    assert (given.exact_milligrams, given.give_milligrams) == (2_000_000, 1_500_000)


def test_a_reduction_keeps_its_target():
    stock = _line(scale(college_recipe("R11"), 8), "E", "brown_chicken_stock")
    assert stock.target_milligrams == 300_000 and "Reduce" in stock.words


# What the bench is given


def test_leek_for_the_learner_to_trim_is_given_as_bought():
    leek = _line(scale(college_recipe("R01"), 8), "B", "leek")
    assert (leek.exact_milligrams, leek.give_milligrams) == (300_000, 400_000)


def test_a_yield_on_the_line_goes_before_the_food():
    potato = _line(scale(college_recipe("R11"), 4), "D", "waxy_potato")
    assert potato.give_milligrams == Fraction(360_000 * 1000, 550)


@pytest.mark.parametrize(
    ("code", "food", "pieces"),
    [
        ("R01", "egg_in_shell", 5),
        ("R02", "egg_in_shell", 8),
        ("R02", "lemon", 4),
        ("R03", "egg_in_shell", 11),
        ("R04", "egg_in_shell", 4),
        ("R05", "egg_in_shell", 5),
        ("R05", "orange", 1),
        ("R07", "lemon", 1),
        ("R08", "egg_in_shell", 7),
        ("V2", "egg_in_shell", None),
    ],
)
def test_a_bench_is_given_whole_pieces_for_the_parts_it_needs(code, food, pieces):
    recipe = college_recipe(code)
    counted = scaling.pieces_to_issue(scale(recipe, recipe.portions_stated).lines, recipe)
    assert (whole_pieces(counted[food]) if food in counted else None) == pieces


def test_seventeen_benches_get_seventeen_times_the_salt_and_eggs_pooled_in_the_order():
    recipe = college_recipe("R01")
    scaled = scale(recipe, 8)
    salt = sum(line.exact_milligrams for line in scaled.lines if line.food == "fine_salt")
    assert scaling.for_benches(salt, 17) == 119_000
    eggs = scaling.pieces_to_issue(scaled.lines, recipe)["egg_in_shell"]
    assert whole_pieces(eggs) * 17 == 85
    assert whole_pieces(scaling.for_benches(eggs, 17)) == 74


def test_potatoes_of_five_benches_are_pooled_before_they_are_rounded():
    give = _line(scale(college_recipe("R11"), 4), "D", "waxy_potato").give_milligrams
    assert scaling.for_benches(give, 5) == Fraction(5 * 360_000_000, 550)


# Rounding


def test_a_weight_is_rounded_once_by_the_rule_of_its_food():
    recipe = college_recipe("R01")
    scaled = scale(recipe, 8, (replace(recipe.tins[0], diameter_mm=200),))
    water = _line(scaled, "A", "water")
    assert scaling.issued(water.exact_milligrams, recipe.food("water")) == 50_000
    salt = _line(scaled, "A", "fine_salt")
    assert salt.exact_milligrams == 2_250
    assert scaling.issued(salt.exact_milligrams, recipe.food("fine_salt")) == 2_300


# Laws


def _written_anew(recipe, scaled):
    """The recipe as if somebody had written down the scaled weights."""
    components = tuple(
        replace(
            component,
            lines=tuple(
                replace(
                    line, milligrams=each.exact_milligrams, held_back_milligrams=each.held_back_milligrams
                )
                for line, each in zip(component.lines, done.lines, strict=True)
            ),
        )
        for component, done in zip(recipe.components, scaled.components, strict=True)
    )
    return replace(recipe, components=components, portions_stated=scaled.portions)


#: What is not undone by scaling back: rules of a pan, a least mass, and a taste.
ONE_WAY = frozenset(("seasoning", "minimum_mass", "vessel", "frying_fat"))


@pytest.mark.parametrize("code", ["R03", "R06", "R07", "R11"])
@given(portions=st.integers(1, 500))
def test_up_and_then_down_is_the_start(code, portions):
    recipe = college_recipe(code)
    there = scale(recipe, portions)
    back = scale(_written_anew(recipe, there), recipe.portions_stated)
    for start, end in zip(scale(recipe, recipe.portions_stated).lines, back.lines, strict=True):
        if start.rule not in ONE_WAY:
            assert end.exact_milligrams == start.exact_milligrams


def test_the_law_of_up_and_down_catches_weights_that_were_rounded_on_the_way():
    recipe = college_recipe("R06")
    there = scale(recipe, 3)
    anew = _written_anew(recipe, there)
    rounded = replace(
        anew,
        components=tuple(
            replace(
                each,
                lines=tuple(
                    replace(line, milligrams=scaling.issued(line.milligrams, recipe.food(line.food)))
                    for line in each.lines
                ),
            )
            for each in anew.components
        ),
    )
    flour = _line(scale(rounded, 16), "A", "strong_wheat_flour").exact_milligrams
    assert flour != 500_000 == _line(scale(anew, 16), "A", "strong_wheat_flour").exact_milligrams


# What is refused


@pytest.mark.parametrize("portions", [0, -8])
def test_portions_that_are_none_are_refused(portions):
    with pytest.raises(RuleBroken) as refused:
        scale(college_recipe("R01"), portions)
    assert refused.value.code == "no_portions" and str(portions) in refused.value.message


def test_another_number_of_tins_than_the_recipe_has_is_refused():
    with pytest.raises(RuleBroken) as refused:
        scale(college_recipe("R01"), 8, ())
    assert refused.value.code == "other_tins"
