from dataclasses import replace

import pytest

from curriculum.foods.costs import PackPrice
from curriculum.recipes import editing
from curriculum.recipes.comparing.compared import compare
from curriculum.recipes.data import ComponentData, LineData, StepData, WayData
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

QUICHE = college_recipe("R01")


def _changed(old, new, prices=None):
    found = compare(old, new, prices or {})
    return {row.where: row for section in found.sections for row in section.changed}


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_nothing_is_different_between_a_version_and_itself(code):
    found = compare(college_recipe(code), replace(college_recipe(code), number=9), {})
    assert found.words == "Nothing is different."
    assert not any(section.changed for section in found.sections)


def test_another_weight_is_said_in_grams_and_per_cent_at_its_line_component_and_whole():
    line = replace(QUICHE.components[0].lines[1], milligrams=140_000)
    found = _changed(QUICHE, editing.with_lines(QUICHE, "A", (line,)))
    assert found["Unsalted butter"].change == "10 g more, 7.7\N{NO-BREAK SPACE}%"
    assert found["The component"].change.startswith("10 g more")
    assert found["All lines together"].change.startswith("10 g more")
    assert compare(QUICHE, editing.with_lines(QUICHE, "A", (line,)), {}).words.startswith("One line and")
    assert found["Unsalted butter"].state == ("swap", "Changed")


def test_a_variant_says_which_line_replaced_which():
    found = _changed(QUICHE, college_recipe("V1"))
    row = found["Soft wheat flour, now Gluten-free flour blend (rice, potato, maize)"]
    assert row.state[1] == "Replaced"
    assert "Step 5" not in found and found["Step 4"].change == "Words."
    assert found["Contains"].change == "Gone: gluten (wheat)."
    assert found["Made without"].change == "New: cereals containing gluten."


def test_what_is_left_out_and_what_is_new_are_said_in_words():
    new = editing.without_line(QUICHE, "A", 3)
    new = editing.with_component(new, ComponentData("Q", "Salad", "portions", (LineData(1, "leek", 1000),)))
    salad = editing.with_step(new, StepData(0, "Dress.", (WayData("hand", 4),)), before=None)
    found = compare(QUICHE, salad, {})
    states = {row.state[1] for section in found.sections for row in section.changed}
    assert {"Left out", "New"} <= states
    assert found.components[-1].heading in ("Salad", "Over-issue")
    gone = compare(salad, QUICHE, {})
    assert gone.components[-1].heading == "Salad"
    assert {row.state[1] for row in gone.components[-1].rows} == {"Left out"}


def test_minutes_temperatures_and_cue_of_a_step_are_named():
    step = QUICHE.step(5)
    stays = (replace(step.stays[0], decicelsius=1900, minutes=step.stays[0].minutes + 5), *step.stays[1:])
    new = editing.changed_step(QUICHE, replace(step, stays=stays, cue="Pale gold."))
    row = _changed(QUICHE, new)["Step 5"]
    assert row.change == "Cue; temperature; waiting: 5 min more."
    assert _changed(QUICHE, new)["In an oven"].change == "5 min more"


def test_a_step_put_in_between_is_new_and_the_others_stay_the_same():
    more = editing.with_step(QUICHE, StepData(0, "Taste.", (WayData("hand", 1),)), before=4)
    found = compare(QUICHE, more, {})
    assert [(row.where, row.state[1]) for row in found.steps.changed] == [("Step 4", "New")]
    back = compare(more, QUICHE, {}).steps.changed
    assert [(row.where, row.state[1]) for row in back] == [("Step 4 of before", "Left out")]


def test_cost_is_compared_only_for_those_who_see_it():
    prices = {food.code: PackPrice(food.code, 1_000_000, 500, None) for food in QUICHE.foods}
    line = replace(QUICHE.components[0].lines[1], milligrams=930_000)
    new = editing.with_lines(QUICHE, "A", (line,))
    assert "more" in _changed(QUICHE, new, prices)["Cost of a portion today"].change
    shown = compare(QUICHE, new, prices, with_cost=False)
    assert "Cost of a portion today" not in {row.where for row in shown.whole.rows}
