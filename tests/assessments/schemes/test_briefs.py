"""What a brief copies from the dish."""

import pytest

from assessments.schemes.briefs import (
    UnreadableTargets,
    proposed_techniques,
    read_targets,
    targets_of,
    write_targets,
)
from tests.builders.recipes import college_recipe


def test_the_quiche_brings_its_portion_serving_range_and_core():
    targets = targets_of(college_recipe("R01"), 8)
    assert (targets.portion_milligrams, targets.portions) == (140_000, 8)
    assert (targets.serve_low_decicelsius, targets.serve_high_decicelsius) == (450, 500)
    assert (targets.core_decicelsius, targets.core_seconds) == (750, 30)


def test_a_temperature_without_a_time_is_not_a_core_to_reach():
    bavarois = college_recipe("R05")
    assert any(step.core_decicelsius for step in bavarois.steps)
    assert targets_of(bavarois, 8).core_decicelsius is None


def test_targets_come_back_as_they_were_kept_and_another_shape_does_not():
    targets = targets_of(college_recipe("R03"), 12)
    assert read_targets(write_targets(targets)) == targets
    for change in ({"shape": 2}, {"surprise": 1}):
        with pytest.raises(UnreadableTargets):
            read_targets({**write_targets(targets), **change})


def test_techniques_are_proposed_in_the_order_of_the_method_without_general_ones():
    recipe = college_recipe("R01")
    assert proposed_techniques(recipe, 4) == ("rubbing_in", "binding_paste", "resting_paste", "knife_hold")
    levels = {"baked_custard": "advanced", "blind_baking": "advanced", "lining_ring": "advanced"}
    assert proposed_techniques(recipe, 4, (), levels) == (
        "rubbing_in",
        "lining_ring",
        "blind_baking",
        "baked_custard",
    )


def test_wanted_techniques_come_first_and_a_variant_fills_up_with_its_own():
    wanted = ("blind_baking", "baked_custard")
    assert set(wanted) <= set(proposed_techniques(college_recipe("R01"), 4, wanted))
    without_egg = college_recipe("V2")
    chosen = proposed_techniques(without_egg, 4, wanted)
    assert len(chosen) == 4 and "blind_baking" in chosen


def test_nought_means_every_specific_technique():
    chosen = proposed_techniques(college_recipe("R03"), 0)
    assert "weighing" not in chosen and "choux_bake" in chosen
