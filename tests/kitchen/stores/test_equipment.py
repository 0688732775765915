"""Tins are short like food (common practice, no source)."""

from dataclasses import replace

from curriculum.recipes.data import EquipmentData
from kitchen.stores.equipment import equipment_needs, equipment_short
from tests.builders.recipes import college_recipe

QUICHE = replace(
    college_recipe("R01"),
    equipment=(EquipmentData("flan_tin", 1), EquipmentData("blowtorch", 1, shared_by_room=True)),
)


def test_each_bench_needs_its_own_tin_and_the_room_one_torch():
    needs = {need.item: need.needed for need in equipment_needs([QUICHE] * 8, {})}
    assert needs == {"flan_tin": 8, "blowtorch": 1}


def test_what_is_short_says_how_many_and_what_could_be_borrowed():
    short = equipment_short([QUICHE] * 8, {"flan_tin": 6, "blowtorch": 1}, {"flan_tin": 3})
    assert [(need.words, need.short, spare) for need, spare in short] == [("flan tin", 2, 3)]


def test_enough_is_not_short():
    assert equipment_short([QUICHE], {"flan_tin": 1, "blowtorch": 1}) == ()
