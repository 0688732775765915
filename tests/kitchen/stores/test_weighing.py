"""The trolley's order: free-from kits whole first, flours and nuts last, chilled as late as can be.

Common practice, no source.
"""

from dataclasses import replace

from kitchen.stores.trays import tray_of
from kitchen.stores.weighing import last_tap, next_stop, stops, wants_second_person
from tests.builders.kits import quiche_kits
from tests.builders.recipes import college_food, college_foods


def trays(weighed=()):
    """The trays of the quiche lesson, with codes; foods in ``weighed`` are weighed on every tray."""
    made = []
    for kit in quiche_kits():
        tray = tray_of(kit, ("Wren", "Maia") if kit.kind == "bench" else ())
        lines = tuple(
            replace(line, weighed="10:51, HB" if line.food in weighed else "") for line in tray.lines
        )
        made.append(replace(tray, code=f"KIT{tray.label}", lines=lines, blocked_why=""))
    return made


def order(weighed=()):
    return stops(trays(weighed), college_foods())


def test_free_from_kits_are_weighed_whole_and_first():
    assert [stop.code for stop in order()[:4]] == ["KIT6", "KIT7", "KITA2", "KITA3"]
    assert order()[0].free_from == "Free from gluten"


def test_dry_goes_before_chilled_and_flour_after_what_has_no_allergen():
    codes = [stop.code for stop in order()[4:]]
    assert codes.index("fine_salt") < codes.index("soft_wheat_flour") < codes.index("leek")
    assert codes.index("leek") < codes.index("unsalted_butter")


def test_a_food_of_a_free_from_kit_is_not_weighed_again_at_its_own_stop():
    butter = next(stop for stop in order() if stop.code == "unsalted_butter")
    assert [item.label for item in butter.items] == ["1", "2", "3", "4", "5", "D", "S", "A1"]


def test_a_kit_that_may_not_leave_is_not_weighed():
    blocked = [replace(tray, blocked_why="No label read.") if tray.label == "6" else tray for tray in trays()]
    assert "KIT6" not in {stop.code for stop in stops(blocked, college_foods())}


def test_several_lines_of_one_food_are_one_weight_with_its_parts():
    kits = quiche_kits(ahead_steps=())
    made = [replace(tray_of(kit), code=kit.label) for kit in kits if not kit.free_from]
    butter = next(stop for stop in stops(made, college_foods()) if stop.code == "unsalted_butter").items[0]
    assert (butter.figure, butter.unit) == ("160", "g")
    assert butter.detail == "130 g shortcrust paste, 30 g leek and cheese filling."


def test_eggs_are_counted_in_pieces():
    eggs = next(stop for stop in order() if stop.code == "egg_in_shell").items[0]
    assert (eggs.figure, eggs.unit) == ("5", "pieces")


def test_the_next_stop_is_the_first_with_something_to_weigh():
    assert next_stop(order()).code == "KIT6"
    every = {line.food for tray in trays() for line in tray.lines}
    assert next_stop(order(every)) is None


def test_only_the_last_tap_at_this_stop_can_be_taken_back():
    stop = next(stop for stop in order({"leek"}) if stop.code == "leek")
    assert last_tap(["LESS", "leek", "KIT1", "leek"], "LESS", stop).label == "1"
    assert last_tap(["LESS", "nutmeg", "KIT1", "nutmeg"], "LESS", stop) is None
    assert last_tap(None, "LESS", stop) is None


def test_a_second_person_looks_at_salt_sugar_gelatine_yeast_and_nuts_and_not_at_butter():
    wanted = ("fine_salt", "caster_sugar", "leaf_gelatine_gold", "fresh_yeast", "flaked_almonds")
    assert all(wants_second_person(college_food(code)) for code in wanted)
    assert not wants_second_person(college_food("unsalted_butter"))


def test_the_tap_has_no_stop():
    assert "water" not in {stop.code for stop in order()}
