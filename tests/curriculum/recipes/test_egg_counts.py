from dataclasses import replace
from fractions import Fraction

from curriculum.recipes import egg_counts
from curriculum.recipes.egg_counts import PartOf, PartUse, counts, makes, with_size
from curriculum.recipes.scaling import scale
from tests.builders.recipes import college_recipe

F = Fraction
PARTS = (
    PartOf("egg_beaten", "Beaten egg", "egg_in_shell", 50_000),
    PartOf("egg_white", "Egg white", "egg_in_shell", 30_000),
    PartOf("egg_yolk", "Egg yolk", "egg_in_shell", 18_000),
)
USES = (
    PartUse("egg_white", "R08", "Pavlova", 150_000),
    PartUse("egg_white", "R11", "Ballotine", 25_000),
    PartUse("egg_yolk", "R02", "Tart", 50_000),
)


def eggs_of(code, benches, recipe=None, parts=PARTS):
    recipe = recipe or college_recipe(code)
    scaled = scale(recipe, recipe.portions_stated)
    return next(each for each in counts(recipe, scaled, benches, parts, USES) if "egg" in each.food)


def test_eggs_are_counted_kit_by_kit_and_pooled_and_the_white_left_over_is_named():
    found = eggs_of("R03", 8)
    assert found.a_bench == F(24, 5) + F(50, 9)
    assert (found.kit_by_kit, found.pooled) == (88, 83)
    white, yolk = found.left
    assert (white.milligrams, yolk.milligrams) == (1_350_000, 10_000)
    assert [(each.recipe, each.batches) for each in white.makes] == [("R08", 9), ("R11", 54)]
    assert yolk.makes == ()


def test_pooled_is_never_more_than_kit_by_kit():
    for benches in range(1, 31):
        found = eggs_of("R01", benches)
        assert found.pooled <= found.kit_by_kit and found.pooled - found.a_bench * benches < 1


def test_the_law_of_pooling_catches_eggs_rounded_in_each_bowl():
    found = eggs_of("R01", 17)
    assert found.kit_by_kit - found.a_bench * 17 >= 1


def test_another_size_of_egg_changes_their_number_and_no_weight():
    recipe = college_recipe("R03")
    large = with_size(recipe, 68_000)
    before, after = scale(recipe, 12), scale(large, 12)
    assert [line.exact_milligrams for line in before.lines] == [line.exact_milligrams for line in after.lines]
    parts = egg_counts.parts_with_size(PARTS, recipe, large)
    found = eggs_of("R03", 8, large, parts)
    assert found.pooled == 70 and found.name.endswith("large")
    assert abs(found.a_bench * F(68, 57) - eggs_of("R03", 8).a_bench) < F(1, 100)
    assert next(each for each in parts if each.part == "egg_white").milligrams_per_piece == 35_789


def test_lemons_are_no_eggs():
    recipe = college_recipe("R02")
    assert with_size(recipe, 68_000).food("lemon") == recipe.food("lemon")
    found = {each.food: each for each in counts(recipe, scale(recipe, 8), 1, PARTS, USES)}
    assert found["lemon"].left == () and found["egg_in_shell"].left


def test_at_most_three_recipes_are_named_the_one_that_takes_most_in_a_batch_first():
    uses = [PartUse("egg_white", f"R{n}", f"Dish {n}", n * 10_000) for n in range(1, 9)]
    named = makes("egg_white", F(60_000), uses, but="R5")
    assert [(each.recipe, each.batches) for each in named] == [("R6", 1), ("R4", 1), ("R3", 2)]


def test_what_is_eaten_of_an_egg_grows_with_its_shell():
    """An egg of 57 g of which 50 g are eaten: at 68.4 g, a fifth more, 60 g."""
    recipe = college_recipe("R03")
    egg = recipe.food("egg_in_shell")
    egg = replace(egg, piece_milligrams=57_000, edible_piece_milligrams=50_000)
    foods = tuple(egg if food.code == egg.code else food for food in recipe.foods)
    sized = with_size(replace(recipe, foods=foods), 68_400).food("egg_in_shell")
    assert (sized.piece_milligrams, sized.edible_piece_milligrams) == (68_400, 60_000)
