"""Stage trays in words: plates as the stores number them, when they leave the cold, what they contain."""

from dataclasses import replace

from kitchen.timeplan.demonstration_clock import OPEN, OnTheClock, on_the_clock
from kitchen.timeplan.demonstration_trays import plates_by_step, trays_of
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche

AT = 9 * 60 + 15
OWN = on_the_clock(college_recipe("R01"), the_quiche(), AT, None)


def trays(clock=OWN):
    return trays_of(college_recipe("R01"), clock)


def test_trays_are_numbered_and_one_alone_is_not():
    assert [tray.plate for tray in trays()] == ["T1", "T2", "T3"]
    assert plates_by_step(OWN) == {2: "T1", 5: "T2", 8: "T3"}
    alone = replace(OWN, plan=replace(OWN.plan, ahead=OWN.plan.ahead[:1]))
    assert [tray.plate for tray in trays(alone)] == ["T"]


def test_a_chilled_tray_leaves_the_cold_before_its_stage_and_a_shell_stands_covered():
    paste, shell, _ = trays()
    assert paste.out == "Out of the cold at 09:10."
    assert shell.out == "Stands covered on the bench."


def test_without_a_clock_no_time_of_day_is_said():
    for tray in trays(OnTheClock(OPEN, AT, the_quiche())):
        assert "09:" not in f"{tray.out} {tray.when} {tray.use}"
    assert trays(OnTheClock(OPEN, AT, the_quiche()))[0].out == "Out of the cold 5 min before it is wanted."


def test_shared_work_is_said_once_and_adds_up():
    made = trays()
    assert sum(tray.minutes for tray in made) == the_quiche().preparation_minutes
    assert made[0].shared == ""
    assert made[1].shared == "12 min of it are worked together with the trays above."


def test_each_tray_names_the_allergens_of_its_components_alone():
    paste, _, quiche = trays()
    assert "egg" not in paste.allergens and "egg" in quiche.allergens
    assert any("wheat" in each for each in paste.allergens) and "milk" in paste.allergens
