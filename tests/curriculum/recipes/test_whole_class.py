from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.foods.costs import PackPrice, Use
from curriculum.recipes.scaling import scale
from curriculum.recipes.weighing import OF_THE_BOOK, Scales
from curriculum.recipes.whole_class import bought, class_needs
from tests.builders.recipes import RECIPE_CODES, college_recipe

F = Fraction
COARSE = Scales(bulk=5000, small=500, no_fine=True)


def needs(code, benches, portions=None, prices=None, **how):
    recipe = college_recipe(code)
    scaled = scale(recipe, portions or recipe.portions_stated)
    return {each.food: each for each in class_needs(recipe, scaled, benches, prices or {}, **how)}


def test_seventeen_benches_take_seventeen_times_the_salt_exactly():
    salt = needs("R01", 17)["fine_salt"]
    assert (salt.bench_exact, salt.needed) == (7_000, 119_000)
    assert salt.benches_milligrams == 119_000 and salt.allowance == 0


@pytest.mark.parametrize("code", RECIPE_CODES)
@given(benches=st.integers(1, 30), portions=st.integers(1, 40), pool=st.booleans())
def test_what_benches_and_the_pool_are_given_is_the_need_and_the_stated_allowance(
    code, benches, portions, pool
):
    for each in needs(code, benches, portions, scales=COARSE, pool=pool).values():
        assert each.needed == each.bench_exact * benches
        assert each.benches_milligrams + each.pool_milligrams == each.needed + each.allowance


def test_the_law_of_the_class_catches_a_need_that_was_rounded_on_the_way():
    nutmeg = needs("R01", 17, scales=Scales(small=500, no_fine=True))["nutmeg"]
    assert nutmeg.needed == 5_100 != nutmeg.benches_milligrams == 8_500
    assert nutmeg.allowance == 3_400


def test_what_the_scale_cannot_show_for_one_bench_is_weighed_once_for_all():
    alone = needs("R01", 17, scales=Scales(small=500, no_fine=True), pool=True)["nutmeg"]
    assert (alone.benches_milligrams, alone.pool_milligrams, alone.allowance) == (0, 5_000, -100)
    assert needs("R01", 1, scales=Scales(small=500, no_fine=True), pool=True)["nutmeg"].pool_milligrams == 0


def test_what_the_scale_shows_too_little_of_is_pooled_as_well():
    """0.3 g at a step of 0.25 g shows 0.25 g, a sixth too little; together 5.1 g show 5.0 g."""
    pooled = needs("R01", 17, scales=Scales(small=250, no_fine=True), pool=True)["nutmeg"]
    assert pooled.bench_exact == 300
    assert (pooled.benches_milligrams, pooled.pool_milligrams) == (0, 5_000)


def test_eggs_are_given_kit_by_kit_and_bought_pooled():
    eggs = needs("R01", 17, prices={"egg_in_shell": PackPrice("egg_in_shell", 1_710_000, 600, 30)})[
        "egg_in_shell"
    ]
    assert eggs.benches_milligrams == 85 * 57_000 and eggs.needed == F(43, 10) * 17 * 57_000
    assert eggs.to_buy == 74 * 57_000
    assert (eggs.bought.packs, eggs.bought.over_pieces, eggs.bought.pence) == (3, 16, 1_800)


def test_what_the_stores_prepare_is_bought_with_its_trimmings():
    beans = needs("R11", 5)["green_beans"]
    potato = needs("R11", 5)["waxy_potato"]
    assert potato.to_buy == potato.needed == F(5 * 360_000 * 1000, 550)
    assert beans.to_buy >= beans.needed


def test_purchases_are_rounded_up_to_whole_packs_once_for_the_class():
    pack = PackPrice("flour", 500_000, 90)
    assert bought(Use("flour", F(1_350_000)), pack).packs == 3
    assert bought(Use("flour", F(1_500_000)), pack).packs == 3
    assert bought(Use("flour", F(1_500_001)), pack).packs == 4
    assert bought(Use("flour", F(1_350_000)), pack).over_milligrams == 150_000
    assert bought(Use("flour", F(1)), None) is None


def test_over_issue_is_for_each_bench_and_does_not_go_with_portions():
    few, many = needs("R03", 7, 12), needs("R03", 7, 24)
    butter = many["unsalted_butter"].bench_exact - 2 * few["unsalted_butter"].bench_exact
    assert butter == -5_000


def test_the_scale_of_the_book_is_used_where_none_is_said():
    assert needs("R06", 4, 3) == needs("R06", 4, 3, scales=OF_THE_BOOK)
