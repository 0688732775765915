from dataclasses import replace

import pytest

from curriculum.recipes.data import StepData, WayData
from curriculum.recipes.reach import batch_of, out_of_reach
from curriculum.recipes.scaling import scale
from tests.builders.recipes import college_recipe

HAND = WayData("hand", 12)
MACHINE = WayData("machine", 6, "mixer", least_milligrams=2_000_000, most_milligrams=8_000_000)


def whisked(*ways):
    """A meringue of 468 g for 8, whisked in one step."""
    recipe = college_recipe("R08")
    return replace(recipe, steps=(StepData(1, "Whisk.", ways, components=("A",)),))


def found(recipe, portions, benches):
    return out_of_reach(recipe, scale(recipe, portions), benches)


def test_a_batch_below_the_least_is_pooled_or_made_by_hand_or_made_larger():
    recipe = whisked(HAND, MACHINE)
    (each,) = found(recipe, 8, 7)
    batch = batch_of(recipe.steps[0], scale(recipe, 8))
    assert each.batch_milligrams == batch == 468_000
    assert each.pool == 5 and batch * 5 >= 2_000_000 > batch * 4
    assert each.by_hand == HAND and each.by_hand.active_minutes == 12
    assert each.portions == 35 and each.loads is None
    assert found(recipe, each.portions, 1) == []


def test_a_class_too_small_to_reach_it_together_is_told_so():
    (each,) = found(whisked(HAND, MACHINE), 8, 4)
    assert each.pool is None and each.portions == 35


def test_a_machine_without_another_way_has_no_hand_way():
    (each,) = found(whisked(MACHINE), 8, 7)
    assert each.by_hand is None


def test_a_batch_above_the_most_takes_so_many_loads():
    (each,) = found(whisked(HAND, MACHINE), 160, 1)
    assert each.loads == 2 and each.pool is None
    assert each.batch_milligrams / each.loads <= 8_000_000 < each.batch_milligrams


@pytest.mark.parametrize("portions", [35, 136])
def test_a_batch_within_the_reach_is_not_named(portions):
    assert found(whisked(HAND, MACHINE), portions, 1) == []


def test_a_step_that_works_on_nothing_weighed_is_not_named():
    recipe = whisked(HAND, MACHINE)
    nothing = replace(recipe, steps=(replace(recipe.steps[0], components=()),))
    assert found(nothing, 8, 7) == []


def test_a_batch_of_just_the_least_or_just_two_loads_is_taken_as_it_is():
    """468 g for 8 portions: exactly the least, exactly one load, exactly two loads of 234 g."""
    assert found(whisked(replace(MACHINE, least_milligrams=468_000)), 8, 1) == []
    assert found(whisked(replace(MACHINE, least_milligrams=468_001)), 8, 1) != []
    small = replace(MACHINE, least_milligrams=None, most_milligrams=468_000)
    assert found(whisked(small), 8, 1) == []
    (each,) = found(whisked(replace(small, most_milligrams=234_000)), 8, 1)
    assert each.loads == 2
