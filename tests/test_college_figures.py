"""The demonstration college's book and lessons give the figures that another program gave.

Every dish and variant, every lesson: weights, portions, cost, allergens, minutes, the kit of a
bench, stock drawn, what is short, pooling over benches, a change of tin, gelatine of another
bloom. The figures stand in ``tests/builders/college_figures.py``; they are the college's own.
"""

from collections import defaultdict
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from curriculum.foods import eggs
from curriculum.foods.costs import PackPrice, pence
from curriculum.recipes import classes, portions, scaling, timing, tins
from curriculum.recipes.costing import batch_cost
from kitchen.stores.allocation import allocate
from kitchen.stores.kits import kit_of_bench, plan_kits
from kitchen.stores.needs import class_need
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.solver import solve
from kitchen.website.demonstration.entries import packs_in
from tests.builders.college_figures import DISHES, LESSONS
from tests.builders.kits import (
    ECLAIR_DAY,
    QUICHE_DAY,
    bench_batches,
    college_lots,
    eclair_kits,
    line_needs,
    quiche_kits,
)
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe, fixture
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def prices():
    packs = packs_in(fixture("stores.json"), date(2027, 1, 4))
    return {
        pack.food: PackPrice(pack.food, pack.milligrams, pack.pence, pack.pieces)
        for pack in packs
        if pack.for_costing
    }


def kinds(recipe, presence):
    lines = [line for component in recipe.components for line in component.lines]
    return " ".join(sorted({kind for line in lines for kind in getattr(recipe.food(line.food), presence)}))


def kit_amounts(recipe):
    """One bench as stated: exact grams to the tenth, whole pieces."""
    grams, pieces = defaultdict(Fraction), {}
    for line in kit_of_bench(recipe, recipe.portions_stated).lines:
        if line.pieces is None:
            grams[line.food] += line.exact / 1000
        else:
            pieces[line.food] = line.pieces
    return {food: round(float(exact), 1) for food, exact in grams.items()} | pieces


def test_every_dish_and_variant_of_the_book_has_its_figures():
    assert set(DISHES) == {*RECIPE_CODES, *VARIANT_CODES}


@pytest.mark.parametrize("code", DISHES)
def test_a_kit_holds_every_food_and_nothing_else(code):
    assert kit_amounts(college_recipe(code)) == DISHES[code].amounts()


def test_a_kit_without_a_line_or_with_a_gram_more_would_be_seen():
    """Planted: the quiche without its nutmeg, and with 281 g of flour."""
    recipe = college_recipe("R01")
    custard, *_ = [each for each in recipe.components if any(ln.food == "nutmeg" for ln in each.lines)]
    less = replace(custard, lines=tuple(line for line in custard.lines if line.food != "nutmeg"))
    robbed = replace(
        recipe, components=tuple(less if each is custard else each for each in recipe.components)
    )
    paste = recipe.components[0]
    flour = replace(paste.lines[0], milligrams=paste.lines[0].milligrams + 1000)
    heavy = replace(paste, lines=(flour, *paste.lines[1:]))
    more = replace(recipe, components=(heavy, *recipe.components[1:]))
    wanted = DISHES["R01"].amounts()
    assert kit_amounts(robbed) != wanted and kit_amounts(more) != wanted


@pytest.mark.parametrize("code", DISHES)
def test_a_batch_costs_its_pence(code, prices):
    recipe = college_recipe(code)
    cost = batch_cost(scaling.scale(recipe, recipe.portions_stated), recipe, prices)
    assert (pence(cost.exact_pence), cost.without_price) == (DISHES[code].pence, ())


@pytest.mark.parametrize("code", DISHES)
def test_allergens_are_those_of_every_line(code):
    recipe, figures = college_recipe(code), DISHES[code]
    assert kinds(recipe, "contains") == figures.contains
    assert kinds(recipe, "may_contain") == figures.may_contain


@pytest.mark.parametrize("code", DISHES)
def test_one_cook_and_the_longest_chain_take_their_minutes(code):
    recipe, figures = college_recipe(code), DISHES[code]
    cook = timing.one_cook(recipe)
    assert (cook.longest_chain_minutes, cook.minutes) == (figures.chain_minutes, figures.one_cook_minutes)
    assert cook.proved and cook.broken == ()
    if figures.work_minutes is not None:
        assert (cook.work_minutes, cook.waiting_minutes) == (figures.work_minutes, figures.wait_minutes)


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_a_dish_weighs_and_gives_what_it_says(code):
    recipe, figures = college_recipe(code), DISHES[code]
    lines = [line for each in recipe.components for line in each.lines if line.part != "over_issue"]
    assert sum(line.milligrams for line in lines) == round(figures.line_grams * 1000)
    assert sum(each.milligrams for each in recipe.finished) == figures.finished_grams * 1000
    assert recipe.portion_milligrams == figures.portion_grams * 1000
    assert (portions.by_weight(recipe), portions.to_be_had(recipe)) == (figures.by_weight, figures.had)
    assert recipe.portions_obtainable == figures.had


def lesson_entry(code):
    return next(each for each in fixture("lessons.json")["lessons"] if each["code"] == code)


@pytest.mark.parametrize("code", LESSONS)
def test_a_lesson_takes_one_cook_its_minutes_and_has_its_kits(code):
    entry, figures = lesson_entry(code), LESSONS[code]
    recipe = college_recipe(entry["dish"])
    left = set(entry.get("ahead_steps", ()))
    if "steps" in entry:
        left |= {step.position for step in recipe.steps} - set(entry["steps"])
    cook = timing.one_cook(recipe, frozenset(left))
    assert (cook.longest_chain_minutes, cook.minutes) == (figures.chain_minutes, figures.one_cook_minutes)
    assert timing.longest_chain(recipe, frozenset(left)) == figures.chain_minutes
    demonstrated = entry["kind"] == "demonstration"
    kits = 0 if demonstrated else entry["bench_count"]
    extra = entry.get("demonstration_batches", 0) + entry.get("spare_batches", 0)
    assert (kits, kits + extra) == (figures.kits, figures.batches)
    assert usable_minutes(entry) == figures.usable_minutes
    if figures.fits is not None:
        assert (cook.minutes <= figures.usable_minutes) is figures.fits


def usable_minutes(entry):
    """Minutes of cooking: those the lesson says, else the slot less start-up and clear-down."""
    begins, ends = (60 * int(at[:2]) + int(at[3:]) for at in (entry["starts"], entry["ends"]))
    return entry.get("cooking_minutes") or ends - begins - 15 - 30


@pytest.mark.parametrize("code", ["main-1", "main-2"])
def test_one_cook_who_waits_for_the_demonstrations_takes_the_proved_minutes(code):
    lesson, figures = college_lesson(code), LESSONS[code]
    assert lesson.usable_minutes == figures.usable_minutes
    assert sum(each.minutes for each in lesson.shown) == figures.shown_minutes
    alone = replace(lesson.benches[0], cooks=1)
    solved = solve(problem_of(replace(lesson, benches=(alone,))).free(), Effort(work=3.0, holding=False))
    assert (solved.finish_minutes, solved.bound_minutes) == (figures.one_cook_with_shown,) * 2


def test_two_shifts_with_the_tins_lined_before_do_not_fit_the_quiche_either():
    """The college's figure: 99 minutes a shift, 198 for two, of 135."""
    alone = timing.one_cook(college_recipe("R01"), frozenset((1, 2, 4))).minutes
    assert 2 * alone == 198 > LESSONS["main-1"].usable_minutes


def test_the_two_lessons_draw_the_butter_of_their_lots_and_are_short_of_what_is_short():
    lots = college_lots()
    for code, kits, day in (("main-1", quiche_kits(), QUICHE_DAY), ("main-2", eclair_kits(), ECLAIR_DAY)):
        answer = allocate(line_needs(kits), lots, day)
        assert (
            tuple((lot, mg // 1000) for lot, mg in answer.by_lot("unsalted_butter")) == LESSONS[code].butter
        )
        short = tuple((each.food, each.short_milligrams // 1000) for each in answer.shortages)
        assert short == LESSONS[code].short
        drawn = defaultdict(int)
        for draw in answer.draws:
            drawn[draw.lot] += draw.milligrams
        lots = [replace(lot, on_hand_milligrams=lot.on_hand_milligrams - drawn[lot.code]) for lot in lots]


def needs_of(code, benches):
    recipe = college_recipe(code)
    return {
        need.food: need
        for need in class_need(plan_kits(bench_batches([code] * benches, recipe.portions_stated)))
    }


def test_seventeen_benches_of_quiche_pool_their_eggs():
    needs = needs_of("R01", 17)
    assert needs["fine_salt"].milligrams == 119_000
    assert needs["soft_wheat_flour"].milligrams == 4_760_000
    assert needs["leek"].milligrams == 6_800_000
    assert (needs["egg_in_shell"].pieces, needs["egg_in_shell"].pooled_pieces) == (85, 74)


def test_seven_benches_of_eclairs_pool_their_eggs_and_leave_1170_g_of_white():
    egg = needs_of("R03", 7)["egg_in_shell"]
    assert (egg.pieces, egg.pooled_pieces) == (77, 73)
    recipe = college_recipe("R03")
    parts = [
        eggs.PartNeed(
            line.food, 7 * line.exact_milligrams, recipe.food(line.food).made_from.milligrams_per_piece
        )
        for line in scaling.scale(recipe, 12).lines
        if line.food in ("egg_beaten", "egg_yolk")
    ]
    assert eggs.left_over(parts, {"egg_white": 30_000})["egg_white"] == 1_170_000


def test_five_benches_of_turned_potatoes_take_3273_g_as_bought():
    assert round(needs_of("R11", 5)["waxy_potato"].exact_milligrams / 1000) == 3273


def test_the_quiche_in_a_20_cm_tin_takes_three_quarters_of_the_paste_and_less_custard():
    recipe = college_recipe("R01")
    (tin,) = recipe.tins
    assert (tin.diameter_mm, tin.depth_mm, tin.overhang_mm) == (240, 30, 10)
    small = replace(tin, diameter_mm=200)
    parts = {each.code: each for each in scaling.scale(recipe, 8, (small,)).components}
    assert parts["A"].factor == Fraction(3, 4)
    assert parts["A"].exact_milligrams == 341_250, "printed as 341.3 g, a half up"
    assert round(float(parts["C"].factor), 4) == 0.6873
    outside = tins.filling_factor(tin, small, inside=False)
    assert round(float(outside), 4) == 0.6944
    custard = next(each for each in scaling.scale(recipe, 8).components if each.code == "C")
    assert round(float(custard.exact_milligrams * outside) / 1000, 1) == 420.0
    assert round(float(parts["C"].exact_milligrams) / 1000, 1) == 415.7


def test_gelatine_of_another_bloom_is_shown_by_both_rules():
    recipe = college_recipe("R05")
    leaf = sum(
        line.milligrams
        for each in recipe.components
        for line in each.lines
        if line.food == "leaf_gelatine_gold"
    )
    assert leaf == 8_000
    assert classes.gelatine(leaf, 200, 160) == (8_944, 10_000)
