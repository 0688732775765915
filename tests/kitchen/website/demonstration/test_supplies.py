"""The lots of the files are those that lie in the stores, with what was read on their labels."""

from datetime import date

from kitchen.website.demonstration.supplies import lots_in
from tests.builders.recipes import fixture


def lots():
    """The lots by their code."""
    return {each.code: each for each in lots_in(fixture("stores.json"), fixture("foods.json"))}


def test_a_lot_that_is_only_expected_is_not_taken_in():
    assert "QS-0912" not in lots()
    assert len(lots()) == 24


def test_a_lot_says_what_its_label_says_once_somebody_read_it():
    butter, blend = lots()["LS-2207"], lots()["QS-0844"]
    assert (butter.contains, butter.label_read_on) == (("milk",), date(2027, 2, 12))
    assert (blend.contains, blend.may_contain, blend.label_read_on) == ((), (), None)


def test_what_is_reserved_for_a_learner_is_kept_for_free_from_kits():
    assert [code for code, lot in lots().items() if lot.reserved_free_from] == ["QS-0844"]


def test_eggs_are_a_weight_of_whole_pieces():
    assert lots()["MP-0710"].milligrams == 71 * 57_000
    assert (lots()["MP-0710"].date_kind, lots()["MP-0710"].dated_on) == ("use_by", date(2027, 2, 22))
