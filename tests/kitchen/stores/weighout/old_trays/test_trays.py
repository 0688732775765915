"""What goes back where when a weighed tray is taken apart. Common practice, no source."""

from dataclasses import replace

import pytest

from kitchen.stores.weighout.old_trays.trays import (
    NewKit,
    WeighedLine,
    WeighedTray,
    amount_of,
    goes_back,
    matched,
)

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
    return NewKit(kit, "bench", label, free_from, a_tray(lines=lines).stands)


def test_a_tray_that_a_new_kit_asks_for_pot_by_pot_stays():
    assert matched([a_tray()], [new()]) == {"K1": ("N1", {"fine_salt", "butter"})}


@pytest.mark.parametrize(
    ("tray", "kit", "stays"),
    [
        (a_tray(), new(lines=(SALT,)), {"fine_salt"}),
        (a_tray(lines=(SALT, replace(BUTTER, milligrams=8000))), new(), {"fine_salt"}),
        (a_tray(lines=(SALT,)), new(), {"fine_salt"}),
        (a_tray(lines=(SALT, BUTTER, replace(SALT, component="Custard"))), new(), {"butter"}),
    ],
)
def test_of_half_a_tray_or_of_other_amounts_the_pots_that_are_right_stay(tray, kit, stays):
    assert matched([tray], [kit]) == {"K1": ("N1", stays)}


@pytest.mark.parametrize(
    ("tray", "kit"),
    [
        (a_tray(), new(label="4")),
        (a_tray(lines=(replace(SALT, milligrams=8000),)), new()),
        (a_tray(), new(free_from=("egg",))),
        (a_tray(free_from=("egg",)), new(free_from=("egg", "milk"))),
    ],
)
def test_another_plate_other_amounts_or_one_free_from_less_is_taken_apart(tray, kit):
    assert matched([tray], [kit]) == {}


def test_a_pot_is_asked_for_once():
    again = a_tray("K2", lines=(SALT, BUTTER))
    assert matched([a_tray("K1", lines=(SALT,)), again], [new()]) == {
        "K1": ("N1", {"fine_salt"}),
        "K2": ("N1", {"butter"}),
    }


def test_what_stays_and_what_comes_off_are_said_apart():
    tray = a_tray(same_as="N1", stays=frozenset({"butter"}))
    assert tray.staying == ("7 g Butter",)
    assert [what for _, what, _ in tray.back] == ["Fine salt"]
