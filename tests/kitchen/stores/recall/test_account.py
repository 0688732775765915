"""Every movement of a lot has its place in the sums, and what does not is named."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.recall.account import Moved, account, faults, used_by_kit

SIGNS = {"receive": 1, "rework": 1, "return": 1, "issue": -1, "supplementary": -1, "waste": -1, "count": 1}


def ledger(*rows):
    """(way, milligrams) or (way, milligrams, kit, made) with their balances."""
    moves, balance = [], 0
    for number, (way, milligrams, *more) in enumerate(rows, start=1):
        balance += milligrams
        moves.append(Moved(1, number, milligrams, balance, way, *more))
    return moves, balance


def test_a_lot_is_added_up_by_hand():
    moves, left = ledger(
        ("receive", 5000), ("issue", -1200, 7), ("return", 200, 7), ("issue", -600, None, 9),
        ("waste", -100), ("count", -50),
    )  # fmt: skip
    sums = account(moves, left)
    assert (sums.received, sums.issued, sums.returned, sums.made, sums.wasted) == (5000, 1200, 200, 600, 100)
    assert (sums.counted, sums.left, sums.missing) == (-50, 3250, 0)
    assert faults(moves, left) == ()
    assert used_by_kit(moves) == {7: 1000}


def test_a_correction_counts_under_what_it_corrects():
    moves, left = ledger(("receive", 5000), ("issue", -1200, 7), ("issue", 300, 7))
    assert account(moves, left).issued == 900 and used_by_kit(moves) == {7: 900}


def test_a_kit_that_brought_all_back_still_stands():
    moves, _ = ledger(("receive", 5000), ("issue", -1200, 7), ("return", 1200, 7))
    assert used_by_kit(moves) == {7: 0}


@given(st.lists(st.tuples(st.sampled_from(sorted(SIGNS)), st.integers(1, 10**6)), min_size=1, max_size=30))
def test_all_that_came_is_issued_wasted_made_or_left(drawn):
    moves, left = ledger(*((way, SIGNS[way] * milligrams) for way, milligrams in drawn))
    assert account(moves, left).missing == 0 and faults(moves, left) == ()


def test_planted_violations_are_caught():
    moves, left = ledger(("receive", 5000), ("issue", -1200, 7), ("waste", -100))
    assert "not accounted for" in faults(moves, left + 1000)[0]
    assert faults([moves[0], moves[2]], left)[0] == "Movement 2 is not there."
    assert faults([moves[0], replace(moves[1], balance_milligrams=1), moves[2]], left)
    assert faults([moves[0], replace(moves[1], way="stolen"), moves[2]], left)
