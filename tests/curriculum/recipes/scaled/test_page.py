from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.costs import PackPrice
from curriculum.recipes.data import LineData
from curriculum.recipes.egg_counts import PartOf, PartUse
from curriculum.recipes.scaled.asked import Asked, Temperatures
from curriculum.recipes.scaled.page import Book, page_of
from curriculum.recipes.weighing import Scales
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

EMPTY = Book({})
EGGS = Book(
    {},
    (
        PartOf("egg_white", "Egg white", "egg_in_shell", 30_000),
        PartOf("egg_yolk", "Egg yolk", "egg_in_shell", 18_000),
    ),
    (PartUse("egg_white", "R08", "Pavlova", 150_000),),
)
COARSE = Scales(bulk=5000, small=1000, no_fine=True)


def page(code, portions=None, book=EMPTY, **more):
    recipe = college_recipe(code)
    return page_of(recipe, Asked(portions or recipe.portions_stated, **more), book)


def line(found, component, food):
    rows = next(each.lines for each in found.components if each.name == component)
    return next(each for each in rows if each.food == food)


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_a_recipe_as_written_needs_no_hand_and_no_decision_of_a_scale(code):
    found = page(code, scales=Scales(bulk=1000))
    assert not [each.title for each in found.hand if " to flour" in each.title or "set" in each.title]
    assert not found.far


def test_each_component_says_its_factor_and_basis():
    recipe = college_recipe("R01")
    found = page("R01", tins=(replace(recipe.tins[0], diameter_mm=200),))
    said = {each.name: each.factor for each in found.components}
    assert said["Shortcrust paste"].startswith("× 0.75, by the area lined")
    assert "× 0.687, by the volume filled, measured inside the paste" in said["Savoury custard"]


def test_a_line_shows_what_to_weigh_the_exact_weight_and_how_far_off():
    found = page("R06", 3, scales=COARSE)
    yeast = line(found, "Dough", "Fresh yeast")
    assert (yeast.figure, yeast.exact, yeast.error, yeast.far) == ("3", "2.81 g", "6.7 % over", True)
    assert found.far


def test_amounts_are_said_as_the_cook_wrote_them_with_grams_beside():
    recipe = college_recipe("R06")
    dough = recipe.components[0]
    lines = (replace(dough.lines[0], written="1 lb 2 oz"), *dough.lines[1:])
    us = replace(recipe, measures="us", components=(replace(dough, lines=lines), *recipe.components[1:]))
    flour = page_of(us, Asked(32), EMPTY).components[0].lines[0]
    assert flour.written == "2 lb 4 oz" and (flour.figure, flour.unit) == ("1,000", "g")


def test_a_class_that_acted_has_its_prose_and_source_and_one_that_did_not_is_silent():
    (seasoning,) = page("R01", 16).rules
    assert seasoning.prose.name == "seasoning" and "web kitchen" in seasoning.prose.source
    assert seasoning.foods == "Fine salt, White pepper, ground and Nutmeg, grated"
    assert page("R01", 8).rules == ()


def test_evaporating_held_back_range_over_issue_and_least_mass_are_right_in_it():
    stock = line(page("R11", 8), "Sauce", college_recipe("R11").food("brown_chicken_stock").name)
    assert "Reduce to 300 g." in stock.points
    egg = line(page("R03", 24), "Choux paste", "Hen egg, beaten whole")
    assert "460 to 520 g, the cue decides." in egg.points
    assert "31 g of it held back." in line(page("R01", 16), "Shortcrust paste", "Water").points
    dusting = line(page("R01", 16), "Over-issue", "Soft wheat flour")
    assert (dusting.figure, dusting.points) == ("20", ("For dusting: the same for every bench.",))
    bath = line(page("R09", 20), "Shells and capping", "Dark couverture 62 %")
    assert bath.figure == "1,105"


def test_gelatine_shows_both_rules_in_grams_and_leaves_and_leaves_it_to_a_person():
    (notice,) = [
        each for each in page("R05", 8, bloom=160, leaf_milligrams=2_500).decide if "gelatine" in each.title
    ]
    words = " ".join(notice.words)
    assert "by the square root of the blooms: 8.9 g, 4 leaves (3.58 exact)." in words
    assert "in proportion to the blooms: 10 g, 4 leaves." in words and "Decide" in words


def test_raising_agent_above_four_batches_is_left_to_a_person():
    assert any("four batches" in each.title for each in page("R06", 80).decide)
    assert not any("four batches" in each.title for each in page("R06", 64).decide)


def test_a_moved_ratio_is_named_with_its_ways_out_and_their_figures():
    notices = {each.title: " ".join(each.words) for each in page("R06", 4, benches=7, scales=COARSE).hand}
    yeast = notices["Dough: Fresh yeast, raising agent to flour"]
    assert "3.75 g exact, 4 g on the scale: 3 % becomes 3.2 % (6.7 % over)." in yeast
    assert "Weigh it for three benches together" in yeast and "Or mix" in yeast
    assert "on a scale that shows 0.1 g: 3.8 g" in yeast


def test_a_batch_below_the_machine_is_pooled_by_hand_or_larger():
    recipe = college_recipe("R08")
    step = recipe.steps[0]
    way = replace(step.ways[0], name="machine", least_milligrams=2_000_000, most_milligrams=None)
    hand = replace(step.ways[0], name="hand", active_minutes=14)
    changed = replace(recipe, steps=(replace(step, ways=(hand, way), components=("A",)), *recipe.steps[1:]))
    words = " ".join(words for each in page_of(changed, Asked(8, 7), EMPTY).hand for words in each.words)
    assert "Pool five benches: 2,340 g in one load." in words
    assert "Or by hand: 14 min at work." in words and "portions and share it." in words


def test_fewer_portions_than_asked_for_name_the_part_that_decides_and_how_many_to_scale_for():
    (notice,) = [each for each in page("R08", 8).hand if "asked for" in each.title]
    words = " ".join(notice.words)
    assert notice.title == "8 portions asked for, 7 to be had"
    assert "French meringue" in words and "With 10 % rejected, seven portions are to be had." in words
    assert "Scale it for 9, or" in words
    assert page("R08", 9).slip[-1] == ("Portions to be had, a bench", "8")


def test_the_class_takes_the_benches_times_one_batch_exactly():
    rows = {each.food: each for each in page("R01", benches=17).needs}
    assert (rows["Fine salt"].need, rows["Fine salt"].allowance) == ("119 g", "none")
    eggs = rows["Hen egg in shell, medium"]
    assert (eggs.bench, eggs.need, eggs.given, eggs.allowance) == ("4.3", "73.1", "85", "+11.9")


def test_eggs_are_pooled_and_what_is_left_is_named_with_what_it_makes():
    (row,) = page("R03", benches=8, book=EGGS).eggs
    assert (row.a_bench, row.kit_by_kit, row.pooled) == ("10.36", "88", "83")
    assert row.left[0].startswith("1,350 g of Egg white left over. It would make nine batches of Pavlova")
    assert row.left[1] == "10 g of Egg yolk left over; no recipe of the book makes a whole batch of it."


def test_another_size_of_egg_is_said_by_its_name():
    (row,) = page("R03", benches=8, shell_milligrams=68_000).eggs
    assert row.food.endswith("large") and row.pooled == "70"


def test_baking_time_is_never_scaled_and_cue_and_probe_stay():
    recipe = college_recipe("R01")
    deeper = (replace(recipe.tins[0], depth_mm=50),)
    words = " ".join(page("R01", tins=deeper).baking)
    assert "is not calculated" in words and "50 mm deep, deeper than 30 mm" in words
    assert "written 35 min. Look for:" in words and "Probe: core 75 to 82\xa0°C." in words
    assert page("R01").baking == ()


def test_a_dough_of_a_stated_weight_and_its_water():
    warm = Temperatures(260, 200, 220, 80)
    found = page("R06", dough_milligrams=28_500_000, temperatures=warm)
    (dough,) = found.doughs
    assert dough.total == "180 %" and dough.made == "For 28.5 kg of dough"
    assert ("Strong white wheat flour", "100 %", "500 g", "15,833.33 g") in dough.lines
    assert found.water[0] == "Water at 28\xa0°C, by the rule of 3 factors."
    iced = page("R06", temperatures=Temperatures(240, 240, 260, 180, tap=140)).water
    assert "300 g take 31.9 g as ice and 268.1 g from the tap" in iced[1]


def test_a_dough_from_the_food_that_is_there():
    (dough,) = page("R06", known_food="whole_milk", known_milligrams=600_000).doughs
    assert dough.made == "From 600 g of Whole milk: 1,800 g of dough"


def test_water_that_no_tap_gives_is_refused():
    with pytest.raises(RuleBroken):
        page("R06", temperatures=Temperatures(350, 100, 100, 10))


def test_costs_are_as_used_as_bought_a_portion_and_a_learner():
    prices = {"soft_wheat_flour": PackPrice("soft_wheat_flour", 1_000_000, 100)}
    found = page("R01", benches=7, learners=14, selling_pence=320, share_per_mille=300, book=Book(prices))
    assert dict(found.costs) == {
        "Used, a bench": "£0.28",
        "Used, the class": "£1.96",
        "Bought in whole packs, the class": "£2.00",
        "A portion": "£0.04",
        "A learner": "£0.14",
        "Food cost at a price of £3.20": "1.1 %",
        "Price for a food cost of 30 %": "£0.12",
    }
    assert "Unsalted butter" in found.without_price


def test_a_portion_of_another_weight_scales_and_is_measured_by_it():
    found = page("R03", 12, portion_milligrams=222_000)
    assert dict(found.slip)["Factor of the batch"] == "× 2"
    assert dict(found.slip)["Portions to be had, a bench"] == "12"


def test_a_recipe_of_nothing_but_a_draft_is_shown():
    bare = replace(
        college_recipe("R06"),
        finished=(),
        portion_milligrams=0,
        steps=(),
        components=(replace(college_recipe("R06").components[0], lines=(LineData(1, "fine_salt", 1000),)),),
    )
    found = page_of(bare, Asked(16), EMPTY)
    assert found.gives == () and found.doughs == () and found.hand == ()
    assert Fraction(1) == Asked(16, portion_milligrams=50_000).size(bare)


def test_what_is_weighed_once_for_all_is_a_share_at_the_bench_and_no_longer_needs_a_hand():
    alone = page("R06", 4, benches=7, scales=COARSE)
    pooled = page("R06", 4, benches=7, scales=COARSE, pool=True)
    salt = line(pooled, "Dough", "Fine salt")
    assert (salt.figure, salt.exact, salt.far) == ("2.5", "", False)
    assert salt.points[0] == "A share of what is weighed once for all benches."
    assert line(alone, "Dough", "Fine salt").far
    assert len(alone.hand) > len(pooled.hand) == 0
    given = {row.food: row.given for row in pooled.needs}
    assert given["Fine salt"] == "18 g once for all"


def test_a_mould_that_no_component_follows_says_nothing_of_whole_moulds():
    assert page("R09", 3).words == () and page("R01", 12).words


def test_the_scales_that_were_said_stand_on_a_printed_page():
    (said,) = page("R06", scales=COARSE).words
    assert said == (
        "The bench scale shows 5 g; salt, raising agent, gel and spice go to 1 g; there is no fine scale."
    )
    assert page("R06", scales=Scales(fine=10)).words == ("Under 20 g a scale shows 0.01 g.",)
    assert page("R06").words == ()
