from dataclasses import replace

from curriculum.recipes import editing
from curriculum.recipes.data import ComponentData, LineData, StepData, WayData
from curriculum.recipes.differences import NOTHING, Difference, differences
from tests.builders.recipes import RECIPE_CODES, college_recipe

QUICHE = college_recipe("R01")


def _with_line(recipe, **changes):
    line = replace(recipe.components[0].lines[1], **changes)
    return editing.with_lines(recipe, "A", (line,))


def test_a_version_is_not_different_from_itself():
    for code in RECIPE_CODES:
        assert differences(college_recipe(code), replace(college_recipe(code), number=7)) == ()


def test_another_weight_is_one_difference_at_its_line():
    found = differences(QUICHE, _with_line(QUICHE, milligrams=140_000))
    assert found == (Difference("Shortcrust paste, Unsalted butter", "130 g", "140 g"),)


def test_a_line_taken_out_and_one_put_in_are_said():
    out = editing.without_line(QUICHE, "A", 3)
    assert differences(QUICHE, out)[0].after == NOTHING
    assert differences(out, QUICHE)[0].before == NOTHING


def test_the_same_food_twice_is_compared_one_by_one():
    twice = editing.with_lines(QUICHE, "A", (LineData(0, "unsalted_butter", 10_000),))
    found = differences(QUICHE, twice)
    assert [(each.before, each.after) for each in found] == [(NOTHING, "10 g")]


def test_a_step_put_between_others_is_said_as_new():
    more = editing.with_step(QUICHE, StepData(0, "Taste.", (WayData("hand", 1),)), before=4)
    found = differences(QUICHE, more)
    assert [(each.where, each.before) for each in found] == [("Step 4", NOTHING)]
    assert found[0].after.startswith("Taste.")
    gone = differences(more, QUICHE)
    assert [(each.where, each.after) for each in gone] == [("Step 4 of before", NOTHING)]


def test_another_oven_setting_is_said_at_its_step():
    step = QUICHE.step(5)
    hotter = editing.changed_step(QUICHE, replace(step, stays=(replace(step.stays[0], decicelsius=1900),)))
    found = differences(QUICHE, hotter)
    assert [each.where for each in found] == ["Step 5"]
    assert "180\xa0°C" in found[0].before and "190\xa0°C" in found[0].after


def test_components_titles_and_equipment_are_compared_too():
    new = replace(
        editing.with_component(QUICHE, ComponentData("E", "Salad", "portions", ())),
        title="Leek quiche",
        portions_stated=10,
        equipment=QUICHE.equipment[1:],
    )
    where = [each.where for each in differences(QUICHE, new)]
    assert where == ["Name", "Portions", "Equipment", "Salad"]
    assert differences(new, QUICHE)[-1] == Difference("Salad", "no line", NOTHING)
