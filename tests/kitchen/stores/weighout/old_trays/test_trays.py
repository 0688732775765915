"""What goes back where when a weighed tray is taken apart. Common practice, no source."""

from dataclasses import replace

import pytest

from kitchen.stores.weighout.old_trays.trays import WeighedLine, WeighedTray, amount_of, goes_back, matched

SALT = WeighedLine("fine_salt", "Fine salt", "7 g", "Paste", 7000, None, "ambient", ("QS-1",))
BUTTER = replace(SALT, food="butter", words="Butter", storage="chilled", lots=("LS-1",))


@pytest.mark.parametrize(
    ("changes", "lidded", "said"),
    [
        ({}, False, "if nobody has touched it; else throw it away from lot QS-1"),
        ({}, True, "Back into the pack of lot QS-1: the lid stayed on."),
        ({"storage": "chilled"}, True, "only if it never left the cold"),
        ({"storage": "frozen"}, False, "only if it never left the cold"),
        ({"lots": ("A", "B")}, False, "Into neither of lots A and B"),
        ({"lots": ("A", "B"), "storage": "chilled"}, False, "Into neither of lots A and B"),
        ({"pieces": 5, "lots": ("EG-1",), "storage": "chilled"}, False, "Back to lot EG-1, whole."),
        ({"lots": ()}, False, "It came from no lot"),
    ],
)
def test_each_weight_goes_where_the_rule_says(changes, lidded, said):
    assert said in goes_back(replace(SALT, **changes), lidded=lidded)


def test_a_tray_says_each_weight_with_where_it_goes():
    more = replace(SALT, milligrams=3000, component="Custard", lots=("QS-1", "QS-2"))
    tray = WeighedTray("K1", "bench", "3", "Bench 3", 1, (SALT, BUTTER, more))
    assert [pot[:2] for pot in tray.back] == [("10 g", "Fine salt"), ("7 g", "Butter")]
    assert tray.back[0][2].startswith("Into neither of lots QS-1 and QS-2")
    assert (amount_of(7000, None), amount_of(285_000, 5)) == ("7 g", "5 pieces")


def a_tray(kit="K1", label="3", lines=(SALT, BUTTER), **changes):
    return WeighedTray(kit, "bench", label, f"Bench {label}", 1, lines, **changes)


def new(kit="N1", label="3", lines=(SALT, BUTTER), free_from=()):
    return (kit, "bench", label, free_from, a_tray(lines=lines).asks)


def test_a_tray_that_a_new_kit_asks_for_line_by_line_may_stay():
    assert matched([a_tray()], [new()]) == {"K1": "N1"}


@pytest.mark.parametrize(
    ("tray", "kit"),
    [
        (a_tray(), new(label="4")),
        (a_tray(), new(lines=(SALT,))),
        (a_tray(lines=(SALT, replace(BUTTER, milligrams=8000))), new()),
        (a_tray(whole=False), new()),
        (a_tray(), new(free_from=("egg",))),
        (a_tray(free_from=("egg",)), new(free_from=("egg", "milk"))),
    ],
)
def test_another_bench_or_weight_half_a_tray_or_one_free_from_less_is_taken_apart(tray, kit):
    assert matched([tray], [kit]) == {}


def test_a_new_kit_takes_one_tray_only():
    assert matched([a_tray("K1"), a_tray("K2")], [new()]) == {"K1": "N1"}
