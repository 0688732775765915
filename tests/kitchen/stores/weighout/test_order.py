"""The weigh-out's order: free-from kits whole and lidded, flours and nuts last, cold as late as can be.

Common practice, no source.
"""

from dataclasses import replace

import pytest

from kitchen.stores.trays import tray_of
from kitchen.stores.weighout.checks import WeighOutRule
from kitchen.stores.weighout.moments import Moment
from kitchen.stores.weighout.order import (
    Facts,
    Looked,
    dust_reaches,
    dusty,
    in_the_way,
    kits_in_the_way,
    meets,
    next_stop,
    stops,
    without_lid,
)
from tests.builders.kits import quiche_kits
from tests.builders.recipes import college_food, college_foods

#: Those without gluten first: the others hold wheat flour.
WHOLE = ["KIT6", "KITA2", "KIT7", "KITA3"]


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


def everything():
    return {line.food for tray in trays() for line in tray.lines}


def order(weighed=(), facts=None):
    return stops(trays(weighed), college_foods(), facts or Facts())


def at(code, weighed=(), facts=None):
    return next(stop for stop in order(weighed, facts) if stop.code == code)


def test_free_from_kits_are_weighed_whole_and_first():
    assert [stop.code for stop in order()[:4]] == WHOLE
    assert order()[0].free_from == "FREE FROM GLUTEN" and "put the lid on" in order()[0].words
    assert "Into the cold at once" in order()[0].words


def test_of_a_free_from_kit_the_dry_foods_are_weighed_first_and_the_chilled_last():
    kept = [college_foods()[item.food].storage for item in order()[0].items]
    assert kept == sorted(kept, key=("ambient", "chilled", "frozen").index) and len(set(kept)) > 1


def test_dry_goes_before_chilled_and_flour_after_what_has_no_allergen():
    codes = [stop.code for stop in order()[4:]]
    assert codes.index("fine_salt") < codes.index("soft_wheat_flour") < codes.index("leek")
    assert codes.index("leek") < codes.index("unsalted_butter")


def test_of_what_is_cold_the_food_that_is_needed_first_is_weighed_first():
    needed = {("KIT1", "unsalted_butter"): Moment(560), ("KIT1", "leek"): Moment(620)}
    codes = [stop.code for stop in order(facts=Facts(moments=needed))]
    assert codes.index("unsalted_butter") < codes.index("leek")
    butter = at("unsalted_butter", facts=Facts(moments=needed))
    assert butter.late and butter.times == "Not before 08:40, needed on the bench 09:20."
    assert butter.items[0].when == "Needed 09:20." and not at("fine_salt").late


def test_a_food_of_a_free_from_kit_is_not_weighed_again_at_its_own_stop():
    assert [item.label for item in at("unsalted_butter").items] == ["1", "2", "3", "4", "5", "D", "S", "A1"]


def test_a_kit_that_may_not_leave_is_not_weighed_but_waits_for_its_lid():
    blocked = [replace(tray, blocked_why="No label read.") if tray.label == "6" else tray for tray in trays()]
    assert "KIT6" not in {stop.code for stop in stops(blocked, college_foods(), Facts())}
    assert "waits for its label" in without_lid(blocked, {})[0].words


def test_several_lines_of_one_food_are_one_weight_with_its_parts():
    kits = quiche_kits(ahead_steps=())
    made = [replace(tray_of(kit), code=kit.label) for kit in kits if not kit.free_from]
    found = stops(made, college_foods(), Facts())
    butter = next(stop for stop in found if stop.code == "unsalted_butter").items[0]
    assert (butter.figure, butter.unit, butter.milligrams) == ("160", "g", 160_000)
    assert butter.detail == "130 g shortcrust paste, 30 g leek and cheese filling."


def test_eggs_are_counted_in_pieces_and_the_tap_has_no_stop():
    eggs = at("egg_in_shell").items[0]
    assert (eggs.figure, eggs.unit, eggs.unit_milligrams) == ("5", "pieces", 57_000)
    assert "water" not in {stop.code for stop in order()}


def test_a_whole_kit_is_done_only_with_its_lid():
    done = everything()
    assert at("KIT6", done).wants_lid and at("KIT6", done).state == ("doing", "Lid to come")
    assert next_stop(order(done)).code == "KIT6"
    lids = {code: "10:55, HB" for code in WHOLE}
    assert next_stop(order(done, Facts(lids=lids))) is None
    assert not at("KIT6", done, Facts(lids=lids)).wants_lid


def test_the_next_stop_follows_the_one_that_is_done_and_then_begins_again():
    assert next_stop(order()).code == "KIT6"
    codes = [stop.code for stop in order()]
    assert next_stop(order(), "fine_salt").code == codes[codes.index("fine_salt") + 1]
    assert next_stop(order(), codes[-1]).code == "KIT6"


def test_a_second_look_is_open_once_the_weight_stands_and_closed_when_it_passed():
    salt = at("fine_salt", {"fine_salt"})
    assert len(salt.unchecked) == len(salt.items) and salt.state == ("swap", "Second check open")
    assert not at("fine_salt").unchecked and at("fine_salt").second
    passed = {(item.kit, "fine_salt"): Looked("10:52, DF") for item in salt.items}
    assert at("fine_salt", {"fine_salt"}, Facts(looked=passed)).state == ("done", "Weighed")
    failed = {("KIT1", "fine_salt"): Looked(failed="32 g instead of 30 g")}
    assert at("fine_salt", {"fine_salt"}, Facts(looked=failed)).items[0].check_open


def test_who_is_sampled_is_not_said_before_the_weight_stands():
    facts = Facts(rule=WeighOutRule("sampled"), sample=frozenset(("KIT1",)))
    assert not at("fine_salt", facts=facts).second
    assert [item.label for item in at("fine_salt", {"fine_salt"}, facts).unchecked] == ["1"]


def test_a_free_from_kit_says_how_the_packs_of_its_lots_stand_until_it_is_weighed():
    drawn = [
        replace(tray, lines=tuple(replace(line, draws=(("A", line.milligrams),)) for line in tray.lines))
        for tray in trays()
    ]
    facts = Facts(packs={"A": "unopened"})
    kit, flour = stops(drawn, college_foods(), facts)[0], stops(drawn, college_foods(), facts)[-1]
    assert kit.items[0].lots == "lot A, open it for this kit first" and flour.items[0].lots == "lot A"
    reserved = stops(drawn, college_foods(), Facts(packs={"A": "reserved"}))[0]
    assert reserved.items[0].lots == "lot A, reserved for free-from kits"


@pytest.mark.parametrize(
    ("food", "free_from", "stays_shut"),
    [
        ("soft_wheat_flour", ("milk",), True),
        ("flaked_almonds", ("egg",), True),
        ("unsalted_butter", ("milk",), True),
        ("unsalted_butter", ("gluten",), False),
        ("fine_salt", ("gluten",), False),
    ],
)
def test_flour_nuts_and_what_a_kit_is_free_from_stay_shut_until_it_is_lidded(food, free_from, stays_shut):
    assert meets(college_food(food), free_from) is stays_shut


def test_dust_is_of_flours_nuts_and_sesame():
    assert dusty(college_food("soft_wheat_flour")) and not dusty(college_food("unsalted_butter"))


def test_kits_with_a_lid_and_kits_that_have_left_wait_for_nothing():
    waiting = without_lid(trays(), {"KIT6": "10:55, HB"})
    assert {each.kit for each in waiting} == set(WHOLE[1:])
    left = [replace(tray, issued=True) for tray in trays()]
    assert without_lid(left, {}) == ()
    assert [each.kit for each in in_the_way(college_food("unsalted_butter"), waiting)] == []
    assert len(in_the_way(college_food("soft_wheat_flour"), waiting)) == 3


def test_between_free_from_kits_no_flour_is_weighed_before_a_kit_without_gluten():
    """The kit without egg holds wheat flour: it waits for the kit without gluten, whatever the plates say."""
    made = {tray.label: tray for tray in trays()}
    without_gluten, without_egg = made["A2"], made["A3"]
    assert "soft_wheat_flour" in {line.food for line in without_egg.lines}
    found = stops([without_egg, without_gluten], college_foods(), Facts())
    assert [stop.code for stop in found][:2] == ["KITA2", "KITA3"]


def test_two_kits_that_reach_each_other_stand_in_the_order_of_their_plates():
    nuts = replace(trays()[0], code="NUTS", free_from=("nuts",))
    almond = replace(
        trays()[0],
        code="BREADLESS",
        free_from=("gluten",),
        lines=(replace(trays()[0].lines[0], food="ground_almonds"),),
    )
    assert dust_reaches(college_food("soft_wheat_flour"), ("gluten",))
    assert dust_reaches(college_food("ground_almonds"), ("nuts",))
    wheat = replace(nuts, lines=(replace(nuts.lines[0], food="soft_wheat_flour"),))
    found = stops([wheat, almond], college_foods(), Facts())
    assert [stop.code for stop in found][:2] == ["NUTS", "BREADLESS"]


def test_what_a_kit_holds_without_dust_keeps_no_other_kit_waiting():
    assert not dust_reaches(college_food("egg_in_shell"), ("egg",))
    assert not dust_reaches(college_food("unsalted_butter"), ("gluten", "milk"))


def test_the_kits_in_the_way_of_a_whole_kit_are_those_its_dust_reaches():
    made = [tray for tray in trays() if tray.label in ("A2", "A3")]
    first, second = stops(made, college_foods(), Facts())
    waiting = without_lid(made, {})
    assert [each.kit for each in kits_in_the_way(second, college_foods(), waiting)] == [first.code]
    assert kits_in_the_way(first, college_foods(), waiting) == ()
    assert kits_in_the_way(second, college_foods(), without_lid(made, {first.code: "10:55, HB"})) == ()
