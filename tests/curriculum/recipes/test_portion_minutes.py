"""Minutes at work for other numbers of portions than the recipe states."""

from dataclasses import replace

import pytest

from curriculum.recipes.checks import findings
from curriculum.recipes.data import WayData
from curriculum.recipes.page import page_of
from curriculum.recipes.portion_minutes import minutes_for, steps_for
from tests.builders.recipes import college_recipe

DIP = WayData("hand", 12, portion_seconds=40)


@pytest.mark.parametrize(("portions", "minutes"), [(12, 12), (8, 10), (16, 15), (24, 20), (11, 12), (1, 5)])
def test_minutes_grow_by_the_seconds_of_each_portion_and_are_rounded_up(portions, minutes):
    assert minutes_for(DIP, portions, 12) == minutes


def test_a_step_that_no_portion_lengthens_takes_what_is_written_for_any_number():
    assert {minutes_for(WayData("hand", 14), portions, 8) for portions in (1, 8, 80)} == {14}


def test_where_there_is_work_at_all_a_minute_is_left():
    assert minutes_for(WayData("hand", 2, portion_seconds=15), 1, 8) == 1


def test_the_steps_of_twelve_eclairs_stated_are_the_recipe_s_own():
    recipe = college_recipe("R03")
    assert steps_for(recipe, 12) is recipe.steps
    assert steps_for(recipe, None) is recipe.steps
    changed = {
        old.position: (old.active_minutes, new.active_minutes)
        for old, new in zip(recipe.steps, steps_for(recipe, 6), strict=True)
        if old != new
    }
    assert changed == {5: (10, 8), 8: (10, 7), 9: (12, 8)}


def test_a_page_for_other_portions_says_their_minutes():
    recipe = college_recipe("R03")
    times = {count: page_of(recipe, {}, {}, count).steps[8].times for count in (12, 6)}
    assert times[12].startswith("12 min at work (40 s of it for each portion), 10 min waiting.")
    assert times[6].startswith("8 min at work (40 s of it for each portion), 10 min waiting.")


def test_portions_that_take_longer_than_their_step_are_found_before_approval():
    recipe = college_recipe("R03")
    steps = tuple(
        replace(step, ways=(replace(step.ways[0], portion_seconds=61),)) if step.position == 9 else step
        for step in recipe.steps
    )
    codes = {each.code for each in findings(replace(recipe, steps=steps))}
    assert "portions_take_more_than_the_step" in codes
    assert "portions_take_more_than_the_step" not in {each.code for each in findings(recipe)}
