"""Benches, demonstrator and trays each need their own; what is shared is counted once."""

from curriculum.recipes.data import EquipmentData, TinData
from kitchen.stores.tools.needs import TRAY, Working, needs_of

QUICHE = (
    EquipmentData("flan_tin", 1),
    EquipmentData("mixing_bowl", 2),
    EquipmentData("blowtorch", 1, shared_by_room=True),
)
TIN = TinData(kind="flan_tin", count=1, shape="round", lined_with="A", filled_with=("B",))


def counts(working):
    return {each.item: each.count for each in needs_of(working)}


def test_seven_benches_and_the_demonstrator_need_eight_tins_and_one_torch():
    found = counts(Working(benches=(QUICHE,) * 7, shown=QUICHE))
    assert found == {"flan_tin": 8, "mixing_bowl": 16, "blowtorch": 1}


def test_a_stage_tray_needs_its_tray_and_the_tin_that_its_components_lie_in():
    working = Working(benches=(QUICHE,), shown=QUICHE, trays=(("A",), ("B", "C"), ("C",)), tins=(TIN,))
    found = counts(working)
    assert found[TRAY] == 3
    assert found["flan_tin"] == 1 + 1 + 2


def test_a_tin_that_the_recipe_does_not_list_as_equipment_is_not_needed_for_a_tray():
    working = Working(shown=QUICHE[1:], trays=(("A",),), tins=(TIN,))
    assert "flan_tin" not in counts(working)


def test_of_what_is_shared_the_list_that_asks_for_most_counts():
    two = (EquipmentData("blowtorch", 1, True), EquipmentData("blowtorch", 1, True))
    assert counts(Working(benches=(QUICHE, two)))["blowtorch"] == 2


def test_a_thing_written_twice_in_a_list_is_added_up():
    twice = (EquipmentData("saucepan", 1), EquipmentData("saucepan", 2))
    (need,) = needs_of(Working(benches=(twice, twice)))
    assert (need.by_bench, need.beside, need.count) == ((3, 3), 0, 6)


def test_what_no_bench_has_for_itself_stands_beside_the_benches():
    needs = {each.item: each for each in needs_of(Working(benches=(QUICHE,) * 2, shown=QUICHE))}
    assert (needs["flan_tin"].by_bench, needs["flan_tin"].beside) == ((1, 1), 1)
    assert (needs["blowtorch"].by_bench, needs["blowtorch"].beside) == ((), 1)


def test_a_lesson_that_sets_nothing_up_needs_nothing():
    assert needs_of(Working()) == ()
