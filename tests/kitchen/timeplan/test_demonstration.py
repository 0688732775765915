"""Demonstrations as plans: the stages a college chose, and the best ones for a slot."""

from dataclasses import replace

import pytest

from kitchen.timeplan import demonstration
from kitchen.timeplan.demonstration import FEW_NODES, alternatives, best_way, chosen, plan
from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstration_steps import Steps
from kitchen.timeplan.demonstrations import solver
from tests.builders.recipes import college_recipe, fixture
from tests.kitchen.timeplan.test_demonstration_search import a_large_recipe, keeps_time

QUICHE = (Shown(4, "live", 6), Shown(5, "stage_tray", 4), Shown(6, "live", 3), Shown(8, "stage_tray", 3))


def the_quiche(slot=16, shown=QUICHE):
    return chosen(college_recipe("R01"), shown, slot)


def test_the_stages_of_the_quiche_take_sixteen_minutes():
    assert the_quiche().minutes == 16
    assert [(stage.starts, stage.step) for stage in the_quiche().stages] == [(0, 4), (6, 5), (10, 6), (13, 8)]


def test_the_quiche_needs_one_paste_one_shell_and_one_baked_quiche():
    assert [(each.step, each.is_shown) for each in the_quiche().ahead] == [(2, False), (5, True), (8, True)]


def test_the_batches_of_the_quiche_are_counted_by_component():
    counted = {each.code: (each.ahead, each.live) for each in the_quiche().batches}
    assert counted == {"A": (3, 0), "B": (1, 0), "C": (1, 0), "D": (1, 1)}


def test_preparation_is_the_hands_behind_everything_and_what_is_shared_counts_once():
    paste, shell, quiche = the_quiche().ahead
    assert (paste.own_minutes, shell.own_minutes, quiche.own_minutes) == (8 + 4, 10 + 4, 12 + 4 + 6 + 5)
    assert (paste.hands_minutes, shell.hands_minutes, quiche.hands_minutes) == (12, 26, 53)
    assert the_quiche().preparation_minutes == 53


def test_a_shell_that_keeps_a_quarter_of_an_hour_is_finished_in_time():
    shell = the_quiche().ahead[1]
    assert (shell.keeps_minutes, shell.needed_at, shell.needed_until, shell.ready_from) == (15, 6, 10, -5)
    assert any("keeps 15 minutes" in words for words in the_quiche().remarks)


def test_a_slot_that_is_too_short_is_said():
    assert "The stages take 16 minutes and the slot has 15." in the_quiche(slot=15).remarks
    assert not any("slot" in words for words in the_quiche(slot=16).remarks)


def test_a_dish_without_its_end_is_said():
    assert "The last step of the dish is not shown." in the_quiche().remarks
    whole = the_quiche(30, (*QUICHE, Shown(9, "live", 6)))
    assert "The last step of the dish is not shown." not in whole.remarks


def test_stages_against_the_method_are_said():
    turned = the_quiche(16, tuple(reversed(QUICHE)))
    assert "Step 8 is shown before step 6, which stands behind it." in turned.remarks


def test_a_live_step_is_taken_up_again_when_its_wait_is_over():
    fresh = chosen(college_recipe("R01"), (Shown(7, "live", 6), Shown(8, "live", 5)), 30)
    assert 7 not in {each.step for each in fresh.ahead}
    too_soon = chosen(college_recipe("R01"), (Shown(4, "live", 10), Shown(5, "live", 4)), 30)
    assert 4 in {each.step for each in too_soon.ahead}


@pytest.mark.parametrize("bad", [Shown(99, "live", 5), Shown(4, "asleep", 5), Shown(4, "live", 0)])
def test_a_stage_that_cannot_be_is_refused(bad):
    with pytest.raises(ValueError, match="No such stage"):
        chosen(college_recipe("R01"), (bad,), 16)


def test_alternatives_are_offered_for_every_slot():
    offered = alternatives(college_recipe("R03"))
    assert [each.slot for each in offered] == [45, 60, 90, 120]
    assert all(each.minutes <= each.slot for each in offered)


def test_each_target_is_live_where_the_slot_allows_it():
    found = plan(college_recipe("R01"), 60, ["lining_ring", "egg_wash_seal"])
    live = {code for stage in found.stages if stage.way != "stage_tray" for code in stage.techniques}
    assert {"lining_ring", "egg_wash_seal"} <= live
    assert found.missed == ()
    assert plan(college_recipe("R01"), 5, ["lining_ring"]).missed == ("lining_ring",)


def test_every_step_is_shown_or_made_before():
    recipe = college_recipe("R03")
    for found in alternatives(recipe):
        seen = {stage.step for stage in found.stages}
        made = {step for each in found.ahead for step in each.steps}
        assert all(step.position in seen | made for step in recipe.steps)


def test_a_step_without_hands_is_no_stage():
    assert all(stage.step != 7 for found in alternatives(college_recipe("R03")) for stage in found.stages)


def test_what_is_shared_by_a_tray_and_the_next_step_is_made_once():
    twice = the_quiche(16, (Shown(5, "stage_tray", 4), Shown(6, "live", 3)))
    assert [each.step for each in twice.ahead] == [5]


def test_a_swapped_step_leaves_its_component_on_the_table():
    leek = chosen(college_recipe("R01"), (Shown(3, "swapped", 13), Shown(8, "live", 5)), 30)
    counted = {each.code: (each.ahead, each.live) for each in leek.batches}
    assert counted["B"] == (1, 1)


def test_the_college_s_own_stages_are_these():
    stages = fixture("lessons.json")["lessons"][0]["demonstration_stages"]
    assert tuple(Shown(each["step"], each["way"], each["minutes"]) for each in stages) == QUICHE


def test_a_recipe_in_a_loop_is_refused():
    recipe = college_recipe("R01")
    first = replace(recipe.steps[0], after=(replace(recipe.steps[1].after[0], needs=2),))
    with pytest.raises(ValueError, match="loop"):
        plan(replace(recipe, steps=(first, *recipe.steps[1:])), 30)


def test_a_recipe_of_many_steps_without_the_solver_has_a_plan_that_is_not_said_to_be_proved(monkeypatch):
    monkeypatch.setattr(solver, "solver_module", lambda: None)
    steps = Steps(a_large_recipe(7))
    found = best_way(steps, 120, frozenset(f"t{n}" for n in range(1, 26)))
    assert not found.proved
    assert keeps_time(steps, found.ways, found.order)


def test_a_recipe_of_few_steps_asks_no_solver_where_the_search_has_the_proof(monkeypatch):
    monkeypatch.setattr(demonstration, "proved_best", None)
    steps = Steps(college_recipe("R05"))
    assert len(steps.nodes) <= FEW_NODES
    assert best_way(steps, 45, frozenset()).proved
