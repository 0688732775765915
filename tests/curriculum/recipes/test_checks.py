from dataclasses import replace

import pytest

from curriculum.recipes import checks
from curriculum.recipes.data import AfterData, ComponentData, StayData, StepData, TinData, WayData
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

QUICHE = college_recipe("R01")


def _codes(recipe):
    return [finding.code for finding in checks.stopping(recipe)]


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_nothing_stops_the_demonstration_book(code):
    assert checks.stopping(college_recipe(code)) == ()


def _with_step(position, **changes):
    steps = tuple(replace(s, **changes) if s.position == position else s for s in QUICHE.steps)
    return replace(QUICHE, steps=steps)


@pytest.mark.parametrize(
    ("broken", "code"),
    [
        (replace(QUICHE, portions_stated=0), "no_portions"),
        (replace(QUICHE, portions_obtainable=0), "no_portions"),
        (replace(QUICHE, components=(), tins=(), steps=()), "no_components"),
        (replace(QUICHE, steps=()), "no_steps"),
        (
            replace(QUICHE, components=(*QUICHE.components, ComponentData("E", "Salad", "portions", ()))),
            "component_without_lines",
        ),
        (
            replace(QUICHE, components=(*QUICHE.components, replace(QUICHE.components[0], code="E"))),
            "component_no_step_uses",
        ),
        (
            replace(QUICHE, tins=(TinData("tin", 1, "round", filled_with=("Z",)),)),
            "tin_of_no_component",
        ),
        (_with_step(1, ways=()), "step_without_way"),
        (_with_step(1, ways=(WayData("hand", 0),), stays=()), "step_takes_no_time"),
        (_with_step(1, components=("A", "Q")), "step_of_no_component"),
        (_with_step(5, stays=(StayData(14, "oven", None, "fan"),)), "oven_without_setting"),
        (_with_step(5, stays=(StayData(14, "oven", 1800, ""),)), "oven_without_setting"),
        (_with_step(3, after=(AfterData(99),)), "step_after_nothing"),
        (_with_step(1, after=(AfterData(2),)), "steps_in_a_loop"),
    ],
)
def test_what_a_lesson_cannot_be_planned_from_stops(broken, code):
    assert code in _codes(broken)


def test_an_oven_that_is_off_and_shut_needs_no_setting():
    stays = (StayData(60, "oven", 1050, "fan"), StayData(30, "oven", None, "", "off_and_shut"))
    assert _codes(_with_step(5, stays=stays)) == []


@pytest.mark.parametrize(
    "before", [(), (StayData(10),), (StayData(60, "oven", 1050, "fan"), StayData(10, "chiller"))]
)
def test_an_oven_that_is_off_before_it_was_hot_stops(before):
    """A class could not be planned: nobody knows how hot an oven is that another step has left."""
    stays = (*before, StayData(30, "oven", None, "", "off_and_shut"))
    assert _codes(_with_step(5, stays=stays)) == ["oven_off_from_the_start"]


def test_an_oven_at_freezing_point_stops():
    assert _codes(_with_step(5, stays=(StayData(30, "oven", 0, "fan"),))) == ["oven_at_no_heat"]


def test_fish_that_is_heated_without_a_core_temperature_stops():
    paupiettes = college_recipe("R12")
    bare = tuple(replace(step, core_decicelsius=None) for step in paupiettes.steps)
    found = checks.stopping(replace(paupiettes, steps=bare))
    assert {finding.code for finding in found} == {"no_core_temperature"}
    assert "Plaice" in found[0].words


def test_a_missing_cue_is_only_to_look_at():
    found = [each for each in checks.findings(_with_step(1, cue="")) if not each.stops]
    assert [(each.code, each.step) for each in found] == [("step_without_cue", 1)]


def test_what_stops_comes_first_and_every_finding_is_a_sentence():
    found = checks.findings(replace(_with_step(1, cue="", after=(AfterData(2),)), portions_stated=0))
    assert [each.stops for each in found] == sorted((each.stops for each in found), reverse=True)
    assert all(each.words.endswith(".") and "safe" not in each.words for each in found)


def test_a_step_without_any_way_is_not_asked_for_its_oven():
    step = StepData(10, "Nothing.", ())
    assert _codes(replace(QUICHE, steps=(*QUICHE.steps, step))) == ["step_without_way"]
