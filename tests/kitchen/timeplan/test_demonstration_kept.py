"""An accepted demonstration is kept and read back whole."""

import json
from dataclasses import replace

import pytest

from kitchen.timeplan.demonstration import plan
from kitchen.timeplan.demonstration_kept import (
    batches_of,
    for_stores,
    kept_demonstration,
    kept_question,
    question_hash,
    read_demonstration,
    shown_steps,
)
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche


@pytest.mark.parametrize("made", [the_quiche(), plan(college_recipe("R03"), 45)], ids=["chosen", "best"])
def test_what_is_kept_is_read_back(made):
    kept = json.loads(json.dumps(kept_demonstration(made)))
    assert read_demonstration(kept) == made


def test_another_shape_is_refused():
    with pytest.raises(ValueError, match="shape 7"):
        read_demonstration({"shape": 7})


def test_the_time_plan_reads_the_stages():
    shown = shown_steps(kept_demonstration(the_quiche()))
    assert [(each.step, each.minutes, each.way) for each in shown] == [
        (4, 6, "live"),
        (5, 4, "stage_tray"),
        (6, 3, "live"),
        (8, 3, "stage_tray"),
    ]


def test_the_stores_read_one_batch_for_each_finished_thing():
    assert [(each.step, each.components, each.batches) for each in batches_of(the_quiche())] == [
        (2, ("A",), 1),
        (5, ("A",), 1),
        (8, ("A", "B", "C", "D"), 1),
    ]


def test_a_demonstration_of_shape_1_is_read_with_all_its_minutes_its_own():
    kept = json.loads(json.dumps(kept_demonstration(the_quiche()))) | {"shape": 1}
    kept["ahead"] = [{k: v for k, v in each.items() if k != "own_minutes"} for each in kept["ahead"]]
    read = read_demonstration(kept)
    assert [each.own_minutes for each in read.ahead] == [each.hands_minutes for each in read.ahead]
    assert read.stages == the_quiche().stages


def test_two_stages_of_one_step_are_one_for_the_class():
    stage = the_quiche().stages[1]
    twice = replace(the_quiche(), stages=(stage, replace(stage, way="swapped", starts=4, minutes=7)))
    (shown,) = shown_steps(kept_demonstration(twice))
    assert (shown.step, shown.minutes, shown.way) == (5, 11, "live")


def test_the_stores_read_batches_by_component_trays_and_table_together():
    shown = for_stores(the_quiche())
    assert [tray.as_far_as for tray in shown.trays] == [
        "as far as step 2",
        "as far as step 5",
        "as far as step 8",
    ]
    assert shown.live == ("D",)
    assert shown.batches() == {"A": 3, "B": 1, "C": 1, "D": 2}


def test_another_slot_is_another_question():
    one, other = (kept_question(college_recipe("R01"), slot, ["probing"]) for slot in (30, 45))
    assert question_hash(one) != question_hash(other)
    assert question_hash(one) == question_hash(kept_question(college_recipe("R01"), 30, ["probing"]))
