from dataclasses import replace
from itertools import pairwise

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


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_food_that_waits_at_the_same_time_is_drawn_on_lanes_of_its_own(code):
    stays = [block for block in _drawn(code).blocks if block.kind != "work"]
    for lane in {block.y for block in stays}:
        row = sorted((block for block in stays if block.y == lane), key=lambda block: block.x)
        assert all(first.end <= then.x + 0.2 for first, then in pairwise(row)), lane
    assert all(block.y + picture.LANE <= _drawn(code).height for block in stays)


def test_two_stays_at_once_take_two_lanes_and_say_their_step_and_place():
    """The planted case: the éclairs bake while the pastry cream chills."""
    stays = [block for block in _drawn("R03").blocks if block.kind != "work"]
    assert len({block.y for block in stays}) > 1
    assert any(block.words.endswith("oven") for block in stays)


def test_the_same_stands_in_order_of_time_for_who_does_not_see_the_picture():
    drawn = _drawn("R03")
    assert drawn.lines[0].at == "0 h 00" and len(drawn.lines) == len(college_recipe("R03").steps)
    assert [line.at for line in drawn.lines] == sorted(line.at for line in drawn.lines)
    assert any(line.lasts.endswith("min at work") for line in _drawn("R04").lines)


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_the_number_of_a_short_work_stands_above_it_and_runs_into_no_other(code):
    narrow = [block for block in _drawn(code).blocks if block.is_narrow and block.words]
    for first, then in pairwise(sorted(narrow, key=lambda block: block.x)):
        assert then.middle - first.middle >= picture.A_LETTER
    assert all(block.text_y < block.y for block in narrow)


def test_two_minutes_of_work_have_their_number():
    assert "1" in {block.words for block in _drawn("R05").blocks if block.is_narrow}
