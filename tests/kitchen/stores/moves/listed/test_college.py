"""The lists of a college: shipped, own, retired, and something else last."""

from kitchen.stores.moves.listed.college import SHIPPED, TITLES, Kept, listed, offered, same_words


def test_own_words_stand_before_something_else_and_retired_ones_are_read_but_not_offered():
    rows = listed(
        "waste", [Kept("burnt", "Burnt or over-baked", True), Kept("own-1", "Left in the proofer", False)]
    )
    assert [each.code for each in rows][-2:] == ["own-1", "other"] and rows[-1].stays
    codes = [code for code, _ in offered(rows)]
    assert "burnt" not in codes and "own-1" in codes
    assert next(each for each in rows if each.code == "burnt").retired


def test_the_same_words_are_found_whatever_their_capitals_and_spaces():
    assert same_words(listed("waste", []), " out  OF date").code == "out_of_date"
    assert same_words(listed("waste", []), "Out of sight") is None


def test_every_list_has_a_title_and_no_code_twice():
    assert set(SHIPPED) == set(TITLES)
    assert all(len(dict(rows)) == len(rows) for rows in SHIPPED.values())
