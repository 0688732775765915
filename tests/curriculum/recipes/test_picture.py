from dataclasses import replace

import pytest

from curriculum.recipes import picture, timing
from tests.builders.recipes import RECIPE_CODES, college_recipe


def _drawn(code):
    recipe = college_recipe(code)
    return picture.draw(recipe, timing.one_cook(recipe))


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_everything_is_drawn_inside_the_paper(code):
    for block in _drawn(code).blocks:
        assert block.x >= picture.LEFT and block.end <= picture.RIGHT + 1


def test_every_step_with_hands_is_a_block_with_its_number_where_it_fits():
    works = [block for block in _drawn("R02").blocks if block.kind == "work"]
    assert len(works) == 10
    assert all(block.words for block in works if block.width >= picture.LEAST_FOR_NUMBER)


def test_two_settings_of_an_oven_are_two_blocks_after_each_other():
    ovens = [block for block in _drawn("R03").blocks if block.kind == "oven"]
    assert len(ovens) == 2 and ovens[1].x == pytest.approx(ovens[0].end, abs=0.2)


def test_the_clock_goes_beyond_the_last_minute():
    drawn = _drawn("R02")
    assert drawn.marks[0].words == "start" and drawn.marks[-1].words == "4 h 00"
    assert "3 h 41" in drawn.said


def test_nothing_to_cook_is_nothing_to_draw():
    recipe = replace(college_recipe("R01"), steps=())
    assert picture.draw(recipe, timing.one_cook(recipe)) is None
