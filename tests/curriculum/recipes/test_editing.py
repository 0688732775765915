from dataclasses import replace

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import editing
from curriculum.recipes.data import AfterData, ComponentData, StepData, WayData
from tests.builders.recipes import college_recipe

QUICHE = college_recipe("R01")


def _needs(recipe):
    return {step.position: sorted(each.needs for each in step.after) for step in recipe.steps}


def test_a_new_component_is_last_and_one_written_anew_keeps_its_place():
    added = editing.with_component(QUICHE, ComponentData("E", "Salad", "portions", ()))
    assert [each.code for each in added.components] == ["A", "B", "C", "D", "X", "E"]
    again = editing.with_component(added, replace(added.components[1], name="Filling"))
    assert [each.code for each in again.components] == ["A", "B", "C", "D", "X", "E"]
    assert again.components[1].name == "Filling"


def test_a_component_taken_out_is_let_go_by_steps_tins_and_weights():
    without = editing.without_component(QUICHE, "B")
    assert all("B" not in step.components for step in without.steps)
    assert without.tins[0].filled_with == ("C",) and without.tins[0].lined_with == "A"
    assert all("B" not in each.components for each in without.finished)
    assert editing.without_component(QUICHE, "A").tins[0].lined_with is None


def test_the_first_free_letter_is_given_to_a_new_component():
    assert editing.free_code(QUICHE) == "E"
    full = replace(QUICHE, components=tuple(ComponentData(c, c, "portions", ()) for c in editing.CODES))
    with pytest.raises(RuleBroken):
        editing.free_code(full)


def test_a_step_put_in_and_taken_out_again_leaves_the_recipe_as_it_was():
    for before in (1, 4, 9, None):
        added = editing.with_step(QUICHE, StepData(0, "Taste.", (WayData("hand", 1),)), before)
        assert editing.without_step(added, before or 10) == QUICHE


def test_a_step_taken_out_hands_its_needs_on():
    assert _needs(QUICHE)[4] == [2]
    assert _needs(editing.without_step(QUICHE, 2))[3] == [1]


def test_a_step_moved_there_and_back_is_the_start():
    moved = editing.moved_step(QUICHE, 7, 2)
    assert moved.step(2).words == QUICHE.step(7).words
    assert [step.position for step in moved.steps] == list(range(1, 10))
    assert editing.moved_step(moved, 2, 7) == QUICHE


def test_a_ring_of_steps_is_refused_when_put_in_and_when_changed():
    ring = replace(QUICHE.step(1), after=(AfterData(2),))
    with pytest.raises(RuleBroken) as refused:
        editing.changed_step(QUICHE, ring)
    assert refused.value.facts["field"] == "after"


def test_steps_with_gaps_are_numbered_anew():
    gaps = replace(
        QUICHE,
        steps=(
            replace(QUICHE.step(1), position=10),
            replace(QUICHE.step(2), position=20, after=(AfterData(10),)),
        ),
    )
    assert _needs(editing.numbered(gaps)) == {1: [], 2: [1]}
