from dataclasses import replace

from curriculum.recipes.page import page_of
from curriculum.recipes.scaling import scale
from curriculum.recipes.step_words import steps_words
from curriculum.techniques.entries import FaultEntry
from tests.builders.recipes import college_recipe

FAULTS = {"gelatine": (FaultEntry("gelatine_1", "Rubbery", "Too much gelatine", "Weigh it"),)}


def _steps(code, portions=None, **more):
    recipe = college_recipe(code)
    return page_of(recipe, {}, {}, portions, **more).steps


def test_two_ways_stand_side_by_side_with_their_minutes_and_what_one_load_takes():
    machine, hand = _steps("R08")[0].ways
    assert (machine.name, machine.minutes, machine.load) == (
        "By machine, mixer",
        "16 min",
        "374.4 to 3,204 g",
    )
    assert (hand.name, hand.minutes, hand.load) == ("By hand", "22 min", "")


def test_a_batch_below_the_machine_is_said_at_the_machine():
    """The planted case: half a batch of meringue."""
    assert "this batch of 234 g is outside it" in _steps("R08", 4)[0].ways[0].load


def test_one_way_needs_no_table():
    assert _steps("R01")[0].ways == ()


def test_faults_stand_at_every_step_and_on_paper_only_once():
    found = [each for step in _steps("R05", faults=FAULTS) for each in step.faults]
    assert [each.is_printed for each in found] == [True, *[False] * (len(found) - 1)] and len(found) > 1
    assert [step.prints_faults for step in _steps("R05", faults=FAULTS)].count(True) == 1


def test_a_technique_without_faults_shows_none():
    assert all(step.faults == () for step in _steps("R05"))


def test_the_core_stands_apart_and_in_the_whole_paragraph():
    step = _steps("R01")[7]
    assert step.core == "Core 75 to 82\xa0°C, held 30 s." and step.core in step.meta
    bare = replace(college_recipe("R01").step(8), core_decicelsius=None)
    scaled = scale(college_recipe("R01"), 8)
    assert steps_words((bare,), {}, {}, scaled)[0].core == ""


def test_the_faults_of_every_dish_stand_on_no_paper():
    everyday = {"weighing": (FaultEntry("weighing_1", "Wrong", "Not tared", "Tare"),)}
    first = _steps("R05", faults=everyday)[0]
    assert [each.code for each in first.faults] == ["weighing"] and not first.prints_faults
