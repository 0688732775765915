import pytest

from curriculum.recipes.data import EquipmentData
from curriculum.recipes.writing.equipment import equipment_from, equipment_words


def test_a_line_is_a_count_a_thing_and_whether_it_is_shared():
    assert equipment_from("2 mixing bowl\nwhisk\n3 × piping bag\nblowtorch (shared by the room)") == (
        EquipmentData("mixing_bowl", 2),
        EquipmentData("whisk", 1),
        EquipmentData("piping_bag", 3),
        EquipmentData("blowtorch", 1, True),
    )


def test_written_and_read_is_the_start():
    things = (EquipmentData("flan_tin_24", 1), EquipmentData("bowl", 2), EquipmentData("torch", 1, True))
    assert equipment_from(equipment_words(things)) == things
    assert equipment_from("") == ()


@pytest.mark.parametrize("text", ["4", "0 bowl", "***"])
def test_a_line_that_names_no_thing_is_quoted(text):
    with pytest.raises(ValueError, match="names no thing"):
        equipment_from(text)
