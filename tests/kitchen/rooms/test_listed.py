"""The college's list of machines for learners under 18."""

from kitchen.rooms.listed import KINDS, USUAL, listed_kinds


def test_a_college_that_has_said_nothing_has_the_usual_list():
    assert listed_kinds(None) == USUAL
    assert {"food_processor", "slicer", "fryer", "torch_station"} <= USUAL
    assert not USUAL & {"mixer", "ring"}


def test_a_college_may_list_nothing_or_its_own_and_no_unknown_kind():
    assert listed_kinds([]) == frozenset()
    assert listed_kinds(["mixer", "trebuchet"]) == {"mixer"}
    assert set(KINDS) >= USUAL
