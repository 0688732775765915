from dataclasses import replace

from curriculum.recipes import editing
from curriculum.recipes.variants.avoided import affected
from curriculum.recipes.variants.making import LineChange, changed
from curriculum.recipes.variants.rereading import techniques_at_stake, to_reread
from tests.builders.recipes import college_foods, college_recipe

QUICHE = college_recipe("R01")


def _without(code, food="rice_flour"):
    changes = [
        LineChange(each.component.code, each.line.position, food, each.line.milligrams)
        for each in affected(QUICHE, code)
    ]
    return changed(QUICHE, changes, (), college_foods())


def test_steps_that_make_a_changed_component_or_name_the_food_are_read_again():
    found = to_reread(QUICHE, _without("gluten"))
    steps = {each.step for each in found if each.step}
    uses = {step.position for step in QUICHE.steps if {"A", "X"} & set(step.components)}
    assert uses <= steps
    assert any(each.text == "Finished weights" for each in found)


def test_a_step_that_was_written_anew_is_not_read_again():
    variant = _without("gluten")
    first = next(each.step for each in to_reread(QUICHE, variant) if each.step)
    step = replace(variant.step(first), cue="Another cue.")
    again = {each.step for each in to_reread(QUICHE, editing.changed_step(variant, step))}
    assert first not in again


def test_nothing_is_read_again_where_no_food_went():
    assert to_reread(QUICHE, QUICHE) == ()


def test_a_technique_named_after_what_goes_is_proposed_as_lost():
    names = {"gluten_development": "Gluten development", "rubbing_in": "Rubbing in"}
    step = replace(QUICHE.step(2), components=("A",), techniques=("rubbing_in", "gluten_development"))
    recipe = replace(QUICHE, steps=(step,))
    found = techniques_at_stake(recipe, {"A": ["Soft wheat flour"]}, names, "gluten")
    assert found == {"rubbing_in": False, "gluten_development": True}
    assert techniques_at_stake(recipe, {"C": ["Egg, beaten"]}, names, "egg") == {}
