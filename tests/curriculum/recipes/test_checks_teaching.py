from dataclasses import replace

import pytest

from curriculum.recipes import checks, timing
from curriculum.recipes.data import AfterData
from curriculum.recipes.finding import Teaching
from curriculum.techniques.entries import TechniqueEntry
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe, fixture

KNOWN = {
    each["code"]: TechniqueEntry(
        each["code"], each["name"], each["level"], each["cue"], tuple(each.get("needs", ()))
    )
    for each in fixture("techniques.json")["techniques"]
}
TECHNIQUES = Teaching(KNOWN)


def _found(recipe, code, teaching=TECHNIQUES):
    return [each for each in checks.findings(recipe, teaching) if each.code == code]


def _training(level, *techniques):
    recipe = college_recipe("R01")
    steps = tuple(replace(step, techniques=techniques if step.position == 1 else ()) for step in recipe.steps)
    return replace(recipe, level=level, steps=steps)


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_the_demonstration_book_trains_nothing_out_of_order(code):
    recipe = college_recipe(code)
    assert _found(recipe, "technique_above_level") == []
    assert _found(recipe, "prerequisite_not_trained") == []


def test_a_technique_above_the_level_of_the_recipe_is_found():
    (found,) = _found(
        _training("foundation", "rough_puff", "binding_paste", "pinning_out"), "technique_above_level"
    )
    assert found.step == 1 and not found.stops
    assert "is intermediate; the recipe is foundation. Raise the level" in found.words


def test_what_a_technique_needs_first_is_trained_or_of_an_easier_level():
    (found,) = _found(_training("foundation", "veg_cuts"), "prerequisite_not_trained")
    assert KNOWN["knife_hold"].name in found.words and "Name it at the step that shows it" in found.words
    assert _found(_training("foundation", "veg_cuts", "knife_hold"), "prerequisite_not_trained") == []
    assert _found(_training("intermediate", "veg_cuts"), "prerequisite_not_trained") == []


def test_a_technique_of_several_steps_is_found_once_and_an_unknown_one_not():
    recipe = _training("foundation", "veg_cuts", "no_such_thing")
    twice = replace(recipe, steps=tuple(replace(s, techniques=("veg_cuts",)) for s in recipe.steps))
    assert len(_found(twice, "prerequisite_not_trained")) == 1
    assert _found(_training("foundation", "no_such_thing"), "prerequisite_not_trained") == []
    assert _found(recipe, "prerequisite_not_trained", Teaching()) == []


def _long(recipe, minutes):
    return _found(recipe, "longer_than_a_lesson", Teaching({}, minutes))


def test_one_cook_beyond_a_usual_lesson_is_found_also_with_all_done_ahead():
    """The worked example: the bavarois takes 200 min, ahead or not."""
    (found,) = _long(college_recipe("R05"), 195)
    assert "One cook needs 3 h 20, also when steps 3, 4 and 5 are done ahead" in found.words
    assert "3 h 15 to cook" in found.words and "over two lessons" in found.words
    assert _long(college_recipe("R05"), 200) == []


def test_what_fits_when_something_is_done_ahead_is_in_order():
    assert _long(college_recipe("R02"), 195) == [] and len(_long(college_recipe("R02"), 100)) == 1


def test_without_a_usual_lesson_or_with_steps_in_a_ring_nothing_is_said():
    assert _long(college_recipe("R09"), None) == []
    recipe = college_recipe("R09")
    ring = tuple(replace(s, after=(AfterData(2),)) if s.position == 1 else s for s in recipe.steps)
    assert timing.loop(replace(recipe, steps=ring)) and _long(replace(recipe, steps=ring), 10) == []
    assert _long(replace(recipe, steps=()), 10) == []
